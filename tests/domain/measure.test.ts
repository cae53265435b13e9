/** Deviations: by how much, which way, and where the band ends. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deviationOf, withinBand } from '../../src/domain/measure';
import type { Quantity } from '../../src/domain/quantity';

const inches = (value: number): Quantity => ({ value, unit: 'in' });
const BAND = { lowest: inches(40), highest: inches(43) };

describe('deviation', () => {
  it.each([
    [inches(44), inches(42), 2],
    [inches(41.5), inches(42), -0.5],
    [inches(42), inches(42), 0],
    [{ value: 106.68, unit: 'cm' } as const, inches(42), 0],
    [inches(1), { value: 2, unit: 'cm' } as const, 0.54],
  ])('%j against %j is %d', (measured, expected, deviation) => {
    expect(deviationOf(measured, expected)).toBe(deviation);
  });
});

describe('band', () => {
  it.each([
    [39.9375, false],
    [40, true],
    [43, true],
    [43.0625, false],
    [Number.NaN, false],
    [Number.POSITIVE_INFINITY, false],
  ])('40 to 43 in: %d is inside is %s', (value, inside) => {
    expect(withinBand(inches(value), BAND)).toBe(inside);
  });

  it('holds the edge in another unit', () => {
    expect(withinBand({ value: 101.6, unit: 'cm' }, BAND)).toBe(true);
    expect(withinBand({ value: 101.5, unit: 'cm' }, BAND)).toBe(false);
  });

  it('agrees with the deviation', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2000 }), (n) => {
        const measured = inches(n / 16);
        const deviation = deviationOf(measured, inches(42));
        expect(withinBand(measured, BAND)).toBe(deviation >= -2 && deviation <= 1);
      }),
    );
  });
});
