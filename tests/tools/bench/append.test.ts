import { describe, expect, it } from 'vitest';
import { percentile } from '../../bench/append';

describe('percentile by nearest rank', () => {
  it.each([
    [50, 5],
    [95, 10],
    [99, 10],
    [10, 1],
    [11, 2],
    [0, 1],
    [100, 10],
  ])('%i of the times 10 down to 1 is %i', (percent, value) => {
    expect(percentile([10, 9, 8, 7, 6, 5, 4, 3, 2, 1], percent)).toBe(value);
  });
  it('of one time is that time', () => {
    expect(percentile([2.345], 95)).toBe(2.35);
  });
  it('of no times is a broken assumption', () => {
    expect(() => percentile([], 50)).toThrow();
  });
});
