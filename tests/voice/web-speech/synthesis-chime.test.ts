/** The two signals: short, not loud enough to clip, without a click, and not to be mistaken for one another. */
import { describe, expect, it } from 'vitest';
import { CHIMES, makeChime } from '../../../src/voice/web-speech/synthesis-chime';

const crossings = (samples: Float32Array) =>
  samples.reduce((count, sample, index) => count + (index > 0 && sample >= 0 !== samples[index - 1]! >= 0 ? 1 : 0), 0);

describe('chimes', () => {
  it.each(CHIMES)('%s is short, begins and ends in silence, and does not clip', (chime) => {
    const { samples, sampleRate } = makeChime(chime);
    const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    expect(samples.length / sampleRate).toBeLessThan(0.5);
    expect(peak).toBeGreaterThan(0.2);
    expect(peak).toBeLessThan(0.5);
    expect([samples[0], samples.at(-1)].map((sample) => Math.abs(sample ?? 1) < 0.005)).toEqual([true, true]);
  });

  it('the refusal is far lower than the call for a hold', () => {
    expect(crossings(makeChime('hold').samples)).toBeGreaterThan(2 * crossings(makeChime('refusal').samples));
  });
});
