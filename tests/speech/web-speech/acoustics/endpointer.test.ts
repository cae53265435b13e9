/** Where speech begins and ends: nothing of a command may be lost, and a knock or a hum is none. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hiss } from '../../../audio/hiss';
import type { Endpoint } from '../../../../src/speech/web-speech/acoustics/endpointer';
import { Endpointer, ENDPOINTER, STEP } from '../../../../src/speech/web-speech/acoustics/endpointer';

const SECOND = 16_000;

/** Noise of a loudness in dB below full scale. */
const noise = (seconds: number, db: number) => hiss(10 ** (db / 20), Math.round(seconds * SECOND), 12_345);
const silence = (seconds: number) => new Float32Array(Math.round(seconds * SECOND));
const join = (...parts: Float32Array[]) => Float32Array.from(parts.flatMap((part) => [...part]));
const kinds = (found: readonly Endpoint[]) => found.map(({ kind }) => kind);
const run = (sound: Float32Array) => new Endpointer().push(sound);

describe('one utterance', () => {
  it('begins, probably ends, and ends', () => {
    expect(kinds(run(join(silence(1), noise(0.6, -20), silence(1))))).toEqual(['sound', 'speech', 'likely', 'ended']);
  });

  it('keeps 0.3 s before its first loud step and 0.2 s after its last', () => {
    const ended = run(join(silence(1), noise(0.6, -20), silence(1))).find((found) => found.kind === 'ended');
    expect(ended?.utterance.end).toBeCloseTo(1.6 * SECOND, -3);
    const loud = ended?.utterance.samples.findIndex((sample) => sample !== 0) ?? 0;
    expect(loud / SECOND).toBeGreaterThanOrEqual(0.29);
    expect((ended?.utterance.samples.length ?? 0) / SECOND).toBeCloseTo(0.3 + 0.6 + 0.2, 1);
  });

  it('is the same when it ends as when it probably ended', () => {
    const found = run(join(silence(1), noise(0.6, -20), silence(1)));
    const likely = found.find((one) => one.kind === 'likely');
    const ended = found.find((one) => one.kind === 'ended');
    expect(likely?.utterance).toEqual(ended?.utterance);
  });

  it('goes on after a pause shorter than 0.45 s', () => {
    const sound = join(silence(1), noise(0.4, -20), silence(0.35), noise(0.4, -20), silence(1));
    expect(kinds(run(sound))).toEqual(['sound', 'speech', 'likely', 'resumed', 'likely', 'ended']);
  });

  it('does not depend on the sizes of the pieces in which it comes', () => {
    const sound = join(silence(0.5), noise(0.5, -25), silence(0.7));
    const whole = run(sound);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 3000 }), { minLength: 1, maxLength: 30 }), (sizes) => {
        const endpointer = new Endpointer();
        const found: Endpoint[] = [];
        for (let at = 0, turn = 0; at < sound.length; turn += 1) {
          const size = sizes[turn % sizes.length] ?? 1;
          found.push(...endpointer.push(sound.subarray(at, at + size)));
          at += size;
        }
        expect(kinds(found)).toEqual(kinds(whole));
      }),
      { numRuns: 20 },
    );
  });

  it('that is being said can be ended at once', () => {
    const endpointer = new Endpointer();
    endpointer.push(join(silence(0.5), noise(0.5, -20)));
    expect(endpointer.finish()?.samples.length).toBeGreaterThan(0.5 * SECOND);
    expect(endpointer.finish()).toBeNull();
  });
});

describe('what is no command', () => {
  it('a knock is dropped as too short', () => {
    const found = run(join(silence(1), noise(0.06, -10), silence(1)));
    expect(found.map((one) => (one.kind === 'dropped' ? one.why : one.kind))).toEqual(['sound', 'short']);
  });

  it('silence and a quiet room give nothing', () => {
    expect(run(silence(3))).toEqual([]);
    expect(run(noise(3, -62))).toEqual([]);
  });

  it('a machine that starts is taken for speech at most once, and then for the room', () => {
    const endpointer = new Endpointer();
    endpointer.push(silence(3));
    const started = kinds(endpointer.push(noise(6, -30)));
    expect(started.filter((kind) => kind === 'sound')).toHaveLength(1);
    expect(endpointer.push(noise(6, -30))).toEqual([]);
  });

  it('speech over that machine is still found', () => {
    const endpointer = new Endpointer();
    endpointer.push(noise(6, -40));
    expect(kinds(endpointer.push(join(noise(0.6, -25), noise(1, -40))))).toEqual([
      'sound',
      'speech',
      'likely',
      'ended',
    ]);
  });

  it('sound without end is dropped as too long, before it fills the memory', () => {
    const endpointer = new Endpointer(0, { ...ENDPOINTER, longest: 100 });
    const found = endpointer.push(join(silence(2), noise(1.5, -20)));
    expect(found.some((one) => one.kind === 'dropped' && one.why === 'long')).toBe(true);
  });
});

describe('positions', () => {
  it('count from where the stream was taken up', () => {
    const endpointer = new Endpointer(50 * STEP);
    const sound = endpointer.push(join(silence(1), noise(0.6, -20))).find(({ kind }) => kind === 'sound');
    expect(sound?.kind === 'sound' ? sound.at : 0).toBeCloseTo(50 * STEP + SECOND, -3);
  });
});
