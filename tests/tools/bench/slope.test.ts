/** Flat or rising: a leak must show, and noise must not pass for one. */
import { describe, expect, it } from 'vitest';
import { slopeOf } from '../../bench/slope';

describe('a row of measurements', () => {
  it.each([
    // Worked by hand.
    ['that lies on a line', [1, 3, 5], { slope: 2, error: 0, flat: false }],
    ['that does not change', [7, 7, 7, 7], { slope: 0, error: 0, flat: true }],
    ['that falls', [9, 8, 7, 6], { slope: -1, error: 0, flat: true }],
    // x - 1.5 = -1.5, -0.5, 0.5, 1.5; y - 2.5 = -2.5, 2.5, -1.5, 1.5: slope 4 / 5; residuals -1.3, 2.9, -1.9, 0.3;
    // their squares sum to 13.8; error = sqrt(13.8 / 2 / 5) = 1.17.
    ['with more noise than rise', [0, 5, 1, 4], { slope: 0.8, error: 1.17, flat: true }],
  ])('%s', (_name, values, expected) => {
    expect(slopeOf(values)).toEqual(expected);
  });

  it('a leak of 10 in noise of 5 is seen', () => {
    const noise = [3, -5, 1, 4, -2, 5, -4, 0, 2, -3, -1, 4];
    expect(slopeOf(noise).flat).toBe(true);
    expect(slopeOf(noise.map((value, at) => 1_000 + 10 * at + value)).flat).toBe(false);
  });

  it('two measurements have no error to compare with', () => {
    expect(() => slopeOf([1, 2])).toThrow('three');
  });
});
