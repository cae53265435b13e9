/** Lengths: what is written can be read back, units convert exactly, nonsense is refused. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Quantity, Unit } from '../../src/domain/quantity';
import {
  add,
  compareQuantities,
  inUnit,
  makeQuantity,
  parseQuantity,
  scale,
  subtract,
  UNITS,
} from '../../src/domain/quantity';

const q = (value: number, unit: Unit): Quantity => ({ value, unit });
const anyUnit = fc.constantFrom(...UNITS);

describe('writing and reading', () => {
  it.each([
    [q(42, 'in'), '42 in'],
    [q(1.25, 'in'), '1 1/4 in'],
    [q(0.5, 'in'), '1/2 in'],
    [q(2.375, 'in'), '2 3/8 in'],
    [q(0.0625, 'in'), '1/16 in'],
    [q(3.5, 'ft'), '3 1/2 ft'],
    [q(30.5, 'cm'), '30.5 cm'],
    [q(0, 'mm'), '0 mm'],
    [q(1.3, 'in'), '1.3 in'],
    [q(-1.5, 'in'), '-1 1/2 in'],
  ])('%j is written %s', (quantity, text) => {
    expect(makeQuantity(quantity)).toBe(text);
  });

  it.each([
    ['1.25 in', q(1.25, 'in')],
    ['3 ft', q(3, 'ft')],
    ['1 1/4 in', q(1.25, 'in')],
    ['2/4 in', q(0.5, 'in')],
    ['  7 mm ', q(7, 'mm')],
    ['7   mm', q(7, 'mm')],
    ['15/16 in', q(0.9375, 'in')],
  ])('"%s" is read', (text, quantity) => {
    expect(parseQuantity(text)).toEqual({ ok: true, value: quantity });
  });

  const noLength = (text: string) => `"${text}" is not a length. Write a number, a space and a unit, like 1 1/4 in.`;

  it.each(['', 'in', '42', '42in', '-3 in', '1e3 in', 'NaN in', '1,5 cm', '1234567 in', 'about 3 in', '3 in or so'])(
    '"%s" is no length',
    (text) => {
      expect(parseQuantity(text)).toEqual({ ok: false, reason: 'bad-quantity', detail: noLength(text) });
    },
  );

  it.each(['1 5/4 in', '1 4/4 in', '1 1/3 in', '1 0/4 in'])('"%s" is no fraction of a tape', (text) => {
    const detail = `"${text}": use halves, quarters, eighths or sixteenths below one.`;
    expect(parseQuantity(text)).toEqual({ ok: false, reason: 'bad-quantity', detail });
  });

  it('a metric tape has no fractions', () => {
    const detail = '"1/2 cm" has a fraction in cm. Write it as a decimal.';
    expect(parseQuantity('1/2 cm')).toEqual({ ok: false, reason: 'bad-quantity', detail });
  });

  it.each(['yd', 'inches', 'constructor', 'IN'])('"%s" is no unit', (unit) => {
    const detail = `"${unit}" is not a unit. Use one of in, ft, cm, mm.`;
    expect(parseQuantity(`3 ${unit}`)).toEqual({ ok: false, reason: 'unknown-unit', detail });
  });

  it('what is no number is not written down as a length', () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => makeQuantity(q(value, 'in'))).toThrow(/finite number/);
    }
  });

  it('reads back every sixteenth and every thousandth that it writes', () => {
    const sixteenths = fc.tuple(fc.integer({ min: 0, max: 160_000 }), fc.constantFrom<Unit>('in', 'ft'));
    fc.assert(
      fc.property(sixteenths, ([n, unit]) => {
        expect(parseQuantity(makeQuantity(q(n / 16, unit)))).toEqual({ ok: true, value: q(n / 16, unit) });
      }),
    );
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 9_999_999 }), anyUnit, (n, unit) => {
        expect(parseQuantity(makeQuantity(q(n / 1000, unit)))).toEqual({ ok: true, value: q(n / 1000, unit) });
      }),
    );
  });

  it('never throws, whatever it is given', () => {
    fc.assert(fc.property(fc.string(), (text) => typeof parseQuantity(text).ok === 'boolean'));
  });
});

describe('arithmetic', () => {
  it.each([
    // The international inch is exactly 25.4 mm, the foot 12 inches (1959 agreement).
    [q(1, 'in'), 'mm', 25.4],
    [q(42, 'in'), 'cm', 106.68],
    [q(3, 'ft'), 'in', 36],
    [q(1, 'ft'), 'cm', 30.48],
    [q(30, 'in'), 'ft', 2.5],
  ] as const)('%j in %s is %d', (quantity, unit, value) => {
    expect(inUnit(quantity, unit)).toEqual(q(value, unit));
  });

  it('answers in the unit of the first', () => {
    expect(add(q(1, 'ft'), q(6, 'in'))).toEqual(q(1.5, 'ft'));
    expect(subtract(q(20, 'cm'), q(1, 'in'))).toEqual(q(17.46, 'cm'));
    expect(subtract(q(1, 'in'), q(2, 'in'))).toEqual(q(-1, 'in'));
    expect(scale(q(2.5, 'in'), 4)).toEqual(q(10, 'in'));
  });

  it('does not let binary noise build up', () => {
    expect(add(q(0.1, 'cm'), q(0.2, 'cm'))).toEqual(q(0.3, 'cm'));
  });

  it('a difference that is only noise is none, and has no sign', () => {
    expect(Object.is(subtract(q(0.3, 'cm'), q(0.1 + 0.2, 'cm')).value, 0)).toBe(true);
  });

  it('a length in its own unit stays as it is', () => {
    expect(inUnit(q(1 / 3, 'cm'), 'cm').value).toBe(1 / 3);
  });

  it('calls lengths equal within a micrometre and no further', () => {
    expect(compareQuantities(q(25.4, 'mm'), q(1, 'in'))).toBe(0);
    expect(compareQuantities(q(25.401, 'mm'), q(1, 'in'))).toBe(0);
    expect(compareQuantities(q(25.403, 'mm'), q(1, 'in'))).toBeGreaterThan(0);
    expect(compareQuantities(q(25, 'mm'), q(1, 'in'))).toBeLessThan(0);
  });

  it('comes back from any unit unchanged for people', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100_000 }), anyUnit, anyUnit, (n, from, to) => {
        const there = q(n / 16, from);
        expect(compareQuantities(inUnit(inUnit(there, to), from), there)).toBe(0);
      }),
    );
  });
});
