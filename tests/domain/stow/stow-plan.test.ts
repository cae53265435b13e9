/** The stow ledger's arithmetic, against examples worked by hand: a stow of bight L and span S takes 2L + S of line. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, compareQuantities, parseQuantity } from '../../../src/domain/quantity';
import type { Quantity } from '../../../src/domain/quantity';
import type { StowPlan } from '../../../src/domain/stow/stow-plan';
import { canEnd, checkPlan } from '../../../src/domain/stow/plan-check';
import {
  lineLeft,
  linePerStow,
  lineUsed,
  nextSide,
  remainderBand,
  sideOfStow,
} from '../../../src/domain/stow/stow-plan';

const length = (text: string): Quantity => {
  const parsed = parseQuantity(text);
  if (!parsed.ok) throw new Error(parsed.detail);
  return parsed.value;
};

const plan = (
  stows: number,
  [bight, span, line, remainder]: readonly string[],
  rest: Partial<StowPlan> = {},
): StowPlan => ({
  stows,
  bight: length(bight ?? ''),
  span: length(span ?? ''),
  line: length(line ?? ''),
  lineFrom: null,
  remainder: length(remainder ?? ''),
  under: length('1 in'),
  over: length('1 in'),
  firstSide: 'left',
  alternate: true,
  wraps: 2,
  ...rest,
});

/**
 * Worked by hand:
 * A  2 x 1     + 3     = 5     in; 20 x 5     = 100 in; 160 - 100 = 60 in. Bights of about 1 in: small inner bag.
 * B  2 x 2     + 6     = 10    in; 30 x 10    = 300 in; 342 - 300 = 42 in. About 2 in: larger outer bag;
 *                                                       42 in remain before the locking stows.
 * C  2 x 2 1/2 + 1 1/2 = 6 1/2 in;  4 x 6 1/2 =  26 in;  42 -  26 = 16 in. Locking stows of 2 to 3 in; about 16 in after.
 * D  2 x 2     + 4     = 8     in; 18 x 8     = 144 in; 15 ft = 180 in; 180 - 144 = 36 in = 3 ft. A static line.
 * E  2 x 1 1/2 + 3/4   = 3 3/4 in; 12 x 3 3/4 =  45 in; 28 1/2 ft = 342 in; 342 - 45 = 297 in = 24 3/4 ft.
 * F  2 x 5     + 12    = 22    cm; 14 x 22    = 308 cm; 400 - 308 = 92 cm.
 * G  2 x 3     + 0     = 6     in;  2 x 6     =  12 in;  28 -  12 = 16 in. Two locking stows of 3 in side by side.
 * H  2 x 2 in  + 10 cm = 20.32 cm = 8 in exactly where the span is 10.16 cm; 10 x 8 = 80 in; 100 - 80 = 20 in.
 * The bights, the 42 in and the 16 in are common practice, no source.
 */
const WORKED = [
  { name: 'A', stows: 20, lengths: ['1 in', '3 in', '160 in', '60 in'], per: '5 in', used: '100 in', left: '60 in' },
  { name: 'B', stows: 30, lengths: ['2 in', '6 in', '342 in', '42 in'], per: '10 in', used: '300 in', left: '42 in' },
  {
    name: 'C',
    stows: 4,
    lengths: ['2 1/2 in', '1 1/2 in', '42 in', '16 in'],
    per: '6 1/2 in',
    used: '26 in',
    left: '16 in',
  },
  { name: 'D', stows: 18, lengths: ['2 in', '4 in', '15 ft', '3 ft'], per: '8 in', used: '144 in', left: '3 ft' },
  {
    name: 'E',
    stows: 12,
    lengths: ['1 1/2 in', '3/4 in', '28 1/2 ft', '297 in'],
    per: '3 3/4 in',
    used: '45 in',
    left: '24 3/4 ft',
  },
  { name: 'F', stows: 14, lengths: ['5 cm', '12 cm', '400 cm', '92 cm'], per: '22 cm', used: '308 cm', left: '92 cm' },
  { name: 'G', stows: 2, lengths: ['3 in', '0 in', '28 in', '16 in'], per: '6 in', used: '12 in', left: '16 in' },
  { name: 'H', stows: 10, lengths: ['2 in', '10.16 cm', '100 in', '20 in'], per: '8 in', used: '80 in', left: '20 in' },
];

describe('worked examples', () => {
  it.each(WORKED)('$name: $stows stows of $per leave $left', ({ stows, lengths, per, used, left }) => {
    const stowPlan = plan(stows, lengths);
    expect(linePerStow(stowPlan)).toEqual(length(per));
    expect(lineUsed(stowPlan, stows)).toEqual(length(used));
    expect(lineLeft(stowPlan.line, stowPlan, stows)).toEqual(length(left));
    expect(checkPlan(stowPlan)).toEqual({ ok: true, value: undefined });
  });

  it('halfway through B, 150 in are stowed and 192 in remain', () => {
    const stowPlan = plan(30, ['2 in', '6 in', '342 in', '42 in']);
    expect(lineUsed(stowPlan, 15)).toEqual(length('150 in'));
    expect(lineLeft(stowPlan.line, stowPlan, 15)).toEqual(length('192 in'));
  });
});

describe('the band around the remainder', () => {
  it('follows the line that was measured, not the line that was hoped for', () => {
    // Locking stows of example C begun with 41 1/2 in: 41 1/2 - 26 = 15 1/2 in.
    // An inch under the computed one would be 14 1/2 in, and the plan states no less than 15 in.
    const stowPlan = plan(4, ['2 1/2 in', '1 1/2 in', '42 in', '16 in'], {
      under: length('1 in'),
      over: length('2 in'),
    });
    expect(remainderBand(stowPlan, length('41 1/2 in'))).toEqual({
      expected: length('15 1/2 in'),
      lowest: length('15 in'),
      highest: length('17 1/2 in'),
    });
  });

  it('is in the unit of the stated remainder', () => {
    const stowPlan = plan(18, ['2 in', '4 in', '15 ft', '36 in']);
    expect(remainderBand(stowPlan, stowPlan.line).expected).toEqual(length('36 in'));
  });

  it('holds nothing where there is not enough line', () => {
    const stowPlan = plan(4, ['2 1/2 in', '1 1/2 in', '42 in', '16 in']);
    for (const line of ['20 in', '39 in', '45 in']) {
      const { lowest, highest } = remainderBand(stowPlan, length(line));
      expect(compareQuantities(lowest, highest), line).toBeGreaterThan(0);
      expect(canEnd(stowPlan, length(line)), line).toBe(false);
    }
    // 41 in less 26 in is 15 in, the least that is stated.
    expect(canEnd(stowPlan, length('41 in'))).toBe(true);
  });
});

describe('sides', () => {
  it('alternate from the first side', () => {
    const stowPlan = plan(4, ['2 in', '6 in', '342 in', '42 in'], { firstSide: 'right' });
    expect([1, 2, 3, 4].map((n) => sideOfStow(stowPlan, n))).toEqual(['right', 'left', 'right', 'left']);
    expect([0, 3, 4, 5].map((done) => nextSide(stowPlan, done))).toEqual(['right', 'left', null, null]);
    expect([1, 2, 3].map((n) => sideOfStow({ ...stowPlan, firstSide: 'left' }, n))).toEqual(['left', 'right', 'left']);
  });

  it('stay where a plan keeps to one side', () => {
    const stowPlan = plan(3, ['2 in', '6 in', '342 in', '42 in'], { alternate: false });
    expect([1, 2, 3].map((n) => sideOfStow(stowPlan, n))).toEqual(['left', 'left', 'left']);
  });

  it('are counted from one', () => {
    expect(() => sideOfStow(plan(3, ['2 in', '6 in', '342 in', '42 in']), 0)).toThrow(/counted from one/);
  });
});

describe('a plan that contradicts itself is refused', () => {
  const good = ['2 in', '6 in', '342 in', '42 in'];
  const counts = 'A stow plan needs at least one stow and at least one wrap of the band, as whole numbers.';
  const lengths = 'Bight and line of a stow plan must be above zero, and no length below it.';
  // A stow of `good` takes 2 x 2 + 6 = 10 in, so 30 of them leave 42 of 342 in.
  const between = 'between 41 in and 43 in. Correct the stow plan.';

  it.each([
    ['remainder-impossible', plan(29, good), `342 in less 29 stows of 10 in leaves 52 in, not ${between}`],
    ['remainder-impossible', plan(31, good), `342 in less 31 stows of 10 in leaves 32 in, not ${between}`],
    [
      'remainder-impossible',
      plan(30, ['2 in', '6 in', '342 in', '43 1/16 in']),
      '342 in less 30 stows of 10 in leaves 42 in, not between 42 1/16 in and 44 1/16 in. Correct the stow plan.',
    ],
    [
      'not-enough-line',
      plan(35, good),
      'There is not enough line: 342 in less 35 stows of 10 in is below zero. Correct the stow plan.',
    ],
    ['bad-stow-count', plan(0, good), counts],
    ['bad-stow-count', plan(2.5, good), counts],
    ['bad-stow-count', plan(201, ['2 in', '6 in', '3000 in', '990 in']), counts],
    ['bad-stow-count', plan(30, good, { wraps: 0 }), counts],
    ['bad-stow-count', plan(30, good, { wraps: 10 }), counts],
    ['bad-length', plan(30, ['0 in', '6 in', '342 in', '42 in']), lengths],
    ['bad-length', plan(30, good, { span: { value: -1, unit: 'in' } }), lengths],
    ['bad-length', plan(30, good, { over: { value: Number.NaN, unit: 'in' } }), lengths],
  ])('%s', (reason, stowPlan, detail) => {
    expect(checkPlan(stowPlan)).toEqual({ ok: false, reason, detail });
  });

  it('but the most stows and wraps that there are are sound', () => {
    expect(checkPlan(plan(200, ['2 in', '6 in', '2998 in', '998 in'], { wraps: 9 })).ok).toBe(true);
  });

  it('but the edge of its own tolerance is still sound', () => {
    expect(checkPlan(plan(30, ['2 in', '6 in', '342 in', '43 in'])).ok).toBe(true);
    expect(checkPlan(plan(30, ['2 in', '6 in', '342 in', '41 in'])).ok).toBe(true);
  });
});

describe('for every plan', () => {
  const sixteenths = (max: number): fc.Arbitrary<Quantity> =>
    fc.integer({ min: 8, max }).map((n) => ({ value: n / 16, unit: 'in' as const }));

  it('what is used and what is left make up the line', () => {
    fc.assert(
      fc.property(sixteenths(80), sixteenths(160), fc.integer({ min: 1, max: 60 }), (bight, span, stows) => {
        const stowPlan = plan(stows, ['1 in', '1 in', '900 ft', '1 in'], { bight, span });
        const sum = add(lineLeft(stowPlan.line, stowPlan, stows), lineUsed(stowPlan, stows));
        expect(compareQuantities(sum, stowPlan.line)).toBe(0);
      }),
    );
  });

  it('the band always holds what it expects, and a plan that states it is sound', () => {
    fc.assert(
      fc.property(sixteenths(80), sixteenths(160), fc.integer({ min: 1, max: 60 }), (bight, span, stows) => {
        const bare = plan(stows, ['1 in', '1 in', '1 in', '1 in'], { bight, span });
        const draft = { ...bare, line: add(length('50 in'), lineUsed(bare, stows)), remainder: length('50 in') };
        const band = remainderBand(draft, draft.line);
        expect(compareQuantities(band.lowest, band.expected)).toBeLessThanOrEqual(0);
        expect(compareQuantities(band.highest, band.expected)).toBeGreaterThanOrEqual(0);
        expect(checkPlan({ ...draft, remainder: band.expected }).ok).toBe(true);
      }),
    );
  });
});
