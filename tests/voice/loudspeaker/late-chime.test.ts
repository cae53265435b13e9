/** The chime is found where it is, in noise, echoes and softness; what is no chime is not taken for one. */
import { describe, expect, it } from 'vitest';
import { chimeDelay, makeSweep } from '../../../src/voice/loudspeaker/late-chime';
import { hiss } from '../../audio/hiss';

const RATE = 16_000;
const chime = makeSweep().samples;

/** Three seconds of a room with this much noise, and the chime in it this late and this loud. */
function room(noise: number, late: number | null, gain = 1): Float32Array {
  const heard = Float32Array.from(hiss(noise, 3 * RATE, 7));
  if (late === null) return heard;
  const at = Math.round(late * RATE);
  chime.forEach((sample, index) => {
    heard[at + index] = (heard[at + index] ?? 0) + gain * sample;
  });
  return heard;
}

describe('a chime', () => {
  it.each([0, 0.06, 0.25, 0.5, 1, 1.1, 1.5, 2, 2.5])('that comes %d s late is found within 5 ms', (late) => {
    for (const [noise, gain] of [
      [0.003, 1],
      [0.003, 0.1],
      [0.05, 0.3],
      [0.003, -0.5],
    ] as const) {
      expect(Math.abs((chimeDelay(room(noise, late, gain)) ?? -999) - late * 1_000)).toBeLessThan(5);
    }
  });

  it('with echoes is found no earlier than it came, and no later than its last strong echo', () => {
    const heard = room(0.003, 0.8);
    for (const [after, gain] of [
      [0.03, 0.5],
      [0.09, -0.4],
      [0.2, 0.25],
    ] as const) {
      const at = Math.round((0.8 + after) * RATE);
      chime.forEach((sample, index) => {
        heard[at + index] = (heard[at + index] ?? 0) + gain * sample;
      });
    }
    const delay = chimeDelay(heard) ?? -1;
    expect(delay).toBeGreaterThan(795);
    expect(delay).toBeLessThan(1_010);
  });

  it.each([
    ['silence', new Float32Array(3 * RATE)],
    ['a quiet room', room(0.003, null)],
    ['loud noise', room(0.3, null)],
    ['a chime far below the noise', room(0.3, 1, 0.02)],
    [
      'a steady tone',
      Float32Array.from({ length: 3 * RATE }, (_, at) => 0.3 * Math.sin((2 * Math.PI * 1_000 * at) / RATE)),
    ],
    ['nothing', new Float32Array()],
    ['less than a chime', chime.slice(0, 1_000)],
  ])('is not found in %s', (_, heard) => {
    expect(chimeDelay(heard)).toBeNull();
  });

  it('that is cut off at the end is not taken for a whole one at another place', () => {
    expect(chimeDelay(room(0.003, 2.95))).toBeNull();
  });
});
