/** The confidence interval of a measured share, against values worked by hand. */
import { describe, expect, it } from 'vitest';
import { shareOf } from '@stowcall/web-speech/calibration/interval';

describe('a share of a count', () => {
  // Worked by hand after Wilson (1927): 1 of 10 lies between 1.8 and 40.4 %; 0 of 100 below 3.7 %.
  it.each([
    [1, 10, 0.0179, 0.4042],
    [0, 100, 0, 0.037],
    [10, 10, 0.7225, 1],
  ])('the interval of %d in %d', (...[count, n, low, high]) => {
    const { interval } = shareOf(count, n);
    expect(interval[0]).toBeCloseTo(low, 3);
    expect(interval[1]).toBeCloseTo(high, 3);
  });

  it('says nothing of nothing', () => {
    expect(shareOf(0, 0).interval).toEqual([0, 1]);
  });
});
