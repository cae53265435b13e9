/** The distance of two utterances when one is stretched to fit the other. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Frames } from '../../../../src/speech/web-speech/rescoring/dynamic-time-warping';
import { warpedDistance } from '../../../../src/speech/web-speech/rescoring/dynamic-time-warping';

const line = (...values: number[]): Frames => ({ values: Float32Array.from(values), width: 1 });

describe('the distance after dynamic time warping', () => {
  it.each([
    // Sakoe and Chiba's symmetric form by hand: a diagonal step counts twice, the sum is divided by both lengths.
    ['two single frames', line(1), line(4), (2 * 3) / 2],
    ['one frame against two', line(1), line(1, 3), (0 + 2) / 3],
    // Two single steps, 0 to 1 and 1 to 3, are cheaper than the diagonal one from 1 to 3.
    ['a value off in the middle', line(0, 1, 0), line(0, 3, 0), (1 + 2) / 6],
    ['the same, drawn out', line(0, 0, 5, 5, 5, 2), line(0, 5, 2), 0],
  ])('of %s', (...[, one, other, distance]) => {
    expect(warpedDistance(one, other)).toBeCloseTo(distance, 12);
  });

  it('counts the frames as wholes', () => {
    const frame = (a: number, b: number): Frames => ({ values: Float32Array.of(a, b), width: 2 });
    expect(warpedDistance(frame(0, 0), frame(3, 4))).toBe(5);
  });

  it('is infinite where one of them is empty', () => {
    expect(warpedDistance(line(), line(1))).toBe(Number.POSITIVE_INFINITY);
    expect(warpedDistance(line(1), line())).toBe(Number.POSITIVE_INFINITY);
    expect(warpedDistance(line(), line())).toBe(Number.POSITIVE_INFINITY);
  });

  it('is the same both ways, and none to itself', () => {
    const some = fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(some, some, (one, other) => {
        expect(warpedDistance(line(...one), line(...one))).toBe(0);
        expect(warpedDistance(line(...one), line(...other))).toBeCloseTo(
          warpedDistance(line(...other), line(...one)),
          10,
        );
      }),
    );
  });
});
