/** What the features keep of a sound and what they leave out. */
import { describe, expect, it } from 'vitest';
import { cepstra, featuresOf } from '../../../../src/speech/web-speech/acoustics/cepstra';
import { SAMPLE_WIDTH } from '../../../../src/speech/web-speech/rescoring/voice-sample';
import { hiss } from '../../../audio/hiss';

const SECOND = 16_000;
/** Two sounds one after the other, so that something is left when the mean is taken off. */
const said = (level: number): Float32Array =>
  Float32Array.from(hiss(0.01, SECOND, 5), (noise, at) => {
    const turn = at < SECOND / 2 ? 0.2 : 0.9;
    return level * (noise + 0.3 * Math.sin(at * turn));
  });
const loud = (from: number, to: number): boolean[] => Array.from({ length: 100 }, (_, at) => at >= from && at < to);
const distance = (one: Float32Array, other: Float32Array): number =>
  Math.sqrt(one.reduce((sum, value, at) => sum + (value - (other[at] ?? 0)) ** 2, 0) / one.length);

describe('the features of what was said', () => {
  it('are 13 numbers for each 10 ms that 25 ms fit into', () => {
    expect(cepstra(new Float32Array(399))).toHaveLength(0);
    expect(cepstra(new Float32Array(400))).toHaveLength(SAMPLE_WIDTH);
    expect(cepstra(new Float32Array(SECOND))).toHaveLength(98 * SAMPLE_WIDTH);
  });

  it('are the same however loud it was', () => {
    const soft = featuresOf({ samples: said(0.1), loud: loud(20, 80) });
    expect(distance(featuresOf({ samples: said(1), loud: loud(20, 80) }), soft)).toBeLessThan(0.01);
  });

  it('have no mean: what is in all of it alike is not in them', () => {
    const features = featuresOf({ samples: said(1), loud: loud(20, 80) });
    for (let place = 0; place < SAMPLE_WIDTH; place += 1) {
      const values = features.filter((_, at) => at % SAMPLE_WIDTH === place);
      expect(values.reduce((sum, value) => sum + value, 0) / values.length).toBeCloseTo(0, 4);
    }
  });

  it('tell two sounds from one another', () => {
    const features = featuresOf({ samples: said(1), loud: loud(20, 80) });
    const half = features.length / 2;
    expect(distance(features.slice(0, half), features.slice(half))).toBeGreaterThan(3);
  });

  it('leave the quiet before and after out, and are none where nothing was loud', () => {
    const frames = (from: number, to: number): number =>
      featuresOf({ samples: said(1), loud: loud(from, to) }).length / SAMPLE_WIDTH;
    expect(frames(20, 80)).toBe(68);
    expect(frames(0, 100)).toBe(98);
    expect(frames(50, 50)).toBe(0);
  });
});
