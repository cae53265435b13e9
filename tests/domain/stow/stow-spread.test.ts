/**
 * Stowing until a wanted remainder, and how far hand-made stows let it stray, against examples worked by hand.
 *
 * A stow takes u = 2L + S. With every hand-set length true to t, n stows come out to within
 *   at worst 3nt, 2nt without span, and t more with a lead-in;
 *   as the root of the sum of squares t sqrt(5n), t sqrt(4n) without span, and 1 more under the root with a lead-in
 * (sqrt of the sum of (a t)^2, propagation of error: NIST/SEMATECH e-Handbook of Statistical Methods, 2.5.5).
 *
 * A  n = 12, t = 1/4: 3 x 12 / 4 = 9 in; sqrt(60) / 4 = 7.745967 / 4 = 1.936492 in: wider than the 1 in that is promised.
 * B  n = 12, t = 1/8: 4.5 in; 7.745967 / 8 = 0.968246 in: just inside 1 in.
 * C  n = 4,  t = 1/8: 1.5 in; sqrt(20) / 8 = 4.472136 / 8 = 0.559017 in.
 * D  n = 20, t = 1/8: 7.5 in; sqrt(100) / 8 = 10 / 8 = 1 1/4 in exactly.
 * E  n = 9,  t = 1/8, no span: 2 x 9 / 8 = 2 1/4 in; sqrt(36) / 8 = 6 / 8 = 3/4 in exactly.
 * F  n = 3,  t = 1/4, lead-in: (9 + 1) / 4 = 2 1/2 in; sqrt(16) / 4 = 1 in exactly.
 * G  n = 16, t = 0.5 cm, no span: 16 cm; sqrt(64) / 2 = 4 cm exactly.
 * H  n = 45, t = 2 mm: 270 mm; sqrt(225) x 2 = 30 mm exactly.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canEnd, canEndWith, checkPlan, lineWithoutEnd } from '../../../src/domain/stow/plan-check';
import { parseQuantity } from '../../../src/domain/quantity';
import type { Quantity } from '../../../src/domain/quantity';
import type { StowPlan } from '../../../src/domain/stow/stow-plan';
import { lineLeft, loopOfStow, remainderBand, sideOfStow } from '../../../src/domain/stow/stow-plan';
import { rootSumSquares, worstCase } from '../../../src/domain/stow/stow-spread';

const length = (text: string): Quantity => {
  const parsed = parseQuantity(text);
  if (!parsed.ok) throw new Error(parsed.detail);
  return parsed.value;
};

/** 12 stows of 2 x 2 + 6 = 10 in from 162 in leave 42 in. */
const FIXED: StowPlan = {
  stows: 12,
  bight: length('2 in'),
  span: length('6 in'),
  line: length('162 in'),
  lineFrom: null,
  remainder: length('42 in'),
  under: length('1 in'),
  over: length('1 in'),
  perStow: length('1/8 in'),
  firstSide: 'left',
  alternate: true,
  viewpoint: 'as seen from the mouth of the bag',
  wraps: 2,
};

/** 10 to 14 stows of 10 in, after 8 in from the links, until 36 to 48 in remain. */
const UNTIL: StowPlan = {
  ...FIXED,
  least: 10,
  stows: 14,
  line: length('170 in'),
  leadIn: length('8 in'),
  under: length('6 in'),
  over: length('6 in'),
};

describe('how far stows stray, worked by hand', () => {
  it.each([
    { name: 'A', stows: 12, perStow: '1/4 in', span: '6 in', leadIn: null, worst: '9 in', root: 1.936492 },
    { name: 'B', stows: 12, perStow: '1/8 in', span: '6 in', leadIn: null, worst: '4 1/2 in', root: 0.968246 },
    { name: 'C', stows: 4, perStow: '1/8 in', span: '6 in', leadIn: null, worst: '1 1/2 in', root: 0.559017 },
    { name: 'D', stows: 20, perStow: '1/8 in', span: '6 in', leadIn: null, worst: '7 1/2 in', root: 1.25 },
    { name: 'E', stows: 9, perStow: '1/8 in', span: '0 in', leadIn: null, worst: '2 1/4 in', root: 0.75 },
    { name: 'F', stows: 3, perStow: '1/4 in', span: '6 in', leadIn: '8 in', worst: '2 1/2 in', root: 1 },
    { name: 'G', stows: 16, perStow: '0.5 cm', span: '0 cm', leadIn: null, worst: '16 cm', root: 4 },
    { name: 'H', stows: 45, perStow: '2 mm', span: '100 mm', leadIn: null, worst: '270 mm', root: 30 },
  ])('$name: $stows stows true to $perStow, span $span, lead-in $leadIn', (row) => {
    const made = {
      span: length(row.span),
      perStow: length(row.perStow),
      ...(row.leadIn === null ? {} : { leadIn: length(row.leadIn) }),
    };
    expect(worstCase(made, row.stows)).toEqual(length(row.worst));
    expect(rootSumSquares(made, row.stows).value).toBeCloseTo(row.root, 6);
  });

  it('is nothing in a plan that is older than the statement', () => {
    expect([worstCase({ span: length('6 in') }, 12).value, rootSumSquares({ span: length('6 in') }, 12).value]).toEqual(
      [0, 0],
    );
  });
});

describe('a plan promises no more than its stows can keep', () => {
  it('1 in over twelve stows true to 1/4 in is refused, with both sums', () => {
    const checked = checkPlan({ ...FIXED, perStow: length('1/4 in') });
    expect(checked).toMatchObject({ ok: false, reason: 'tolerance-too-narrow' });
    expect(checked.ok ? '' : checked.detail).toBe(
      '12 stows made to within 1/4 in each come out to within 1.937 in (root of the sum of squares; at worst 9 in), ' +
        'so the plan cannot promise 1 in under and 1 in over. Allow more, or make fewer stows or truer ones.',
    );
  });

  it('but 1 in over twelve stows true to 1/8 in, and 2 in over those true to 1/4 in, are sound', () => {
    expect(checkPlan(FIXED).ok).toBe(true);
    expect(checkPlan({ ...FIXED, perStow: length('1/4 in'), under: length('2 in'), over: length('2 in') }).ok).toBe(
      true,
    );
  });

  it('the band must hold a stray stow on each side, not on one alone', () => {
    const oneSided = { ...FIXED, under: length('1/2 in'), over: length('2 in') };
    expect(checkPlan(oneSided)).toMatchObject({ ok: false, reason: 'tolerance-too-narrow' });
  });

  it('a band in which a stow too many would hide is refused', () => {
    const wide = { ...FIXED, under: length('10 in'), over: length('10 in') };
    expect(checkPlan(wide)).toMatchObject({ ok: false, reason: 'miscount-hidden' });
    // 14 x 3 / 4 + 1/4 = 10 3/4 in at worst, and a stow takes 10 in.
    const rough = { ...UNTIL, perStow: length('1/4 in') };
    expect(checkPlan(rough)).toMatchObject({ ok: false, reason: 'miscount-hidden' });
  });
});

describe('stowing until the wanted remainder is reached', () => {
  // 170 - 8 - 10 n: 10 stows leave 62, 11 leave 52, 12 leave 42, 13 leave 32, 14 leave 22 in.
  // At worst 12 stows stray 12 x 3/8 + 1/8 = 4 5/8 in, 11 stray 4 1/4 in, 13 stray 5 in.
  it.each<[number, string, string | null, string | null]>([
    [11, '52 in', '47 3/4 in', '48 in'],
    [12, '42 in', '37 3/8 in', '46 5/8 in'],
    [13, '32 in', '36 in', '37 in'],
    [10, '62 in', null, null],
    [14, '22 in', null, null],
  ])('after %i stows %s should be left, measured between %s and %s', (...[stows, left, lowest, highest]) => {
    const band = remainderBand(UNTIL, UNTIL.line, stows);
    expect(band.expected).toEqual(length(left));
    expect(lineLeft(UNTIL.line, UNTIL, stows)).toEqual(length(left));
    expect(canEndWith(UNTIL, UNTIL.line, stows)).toBe(lowest !== null);
    if (lowest !== null && highest !== null) {
      expect([band.lowest, band.highest]).toEqual([length(lowest), length(highest)]);
    }
  });

  it('is sound when some number of stows leaves what is wanted from each line that may be measured', () => {
    expect(checkPlan(UNTIL).ok).toBe(true);
    // With 12 stows 36 + 128 + spread to 48 + 128 - spread, spread = sqrt(61) / 8 = 0.976: 164.976 to 175.024 in;
    // with 11 stows (sqrt(56) / 8 = 0.935) 154.935 to 165.065 in: together without a gap.
    expect(lineWithoutEnd(UNTIL, { lowest: length('155 in'), highest: length('175 in') })).toBeNull();
    // 10 stows, 118 in: from 154.893 in down; below 144.893 in no number leaves enough.
    expect(lineWithoutEnd(UNTIL, { lowest: length('144 in'), highest: length('170 in') })).toEqual(length('144 in'));
    // 13 stows reach up to 8 + 130 + 48 - sqrt(66) / 8 = 184.984 in, 14 begin at 8 + 140 + 36 + sqrt(71) / 8 = 185.053 in.
    expect(lineWithoutEnd(UNTIL, { lowest: length('170 in'), highest: length('196 in') })?.value).toBeCloseTo(
      184.984,
      3,
    );
    expect([140, 170, 205].map((value) => canEnd(UNTIL, { value, unit: 'in' }))).toEqual([false, true, false]);
  });

  it('is refused where lines between two numbers of stows could not end', () => {
    // A band of 4 in, and stows that take 10 in: most lines end in no band.
    const narrow = { ...UNTIL, under: length('2 in'), over: length('2 in') };
    expect(lineWithoutEnd(narrow, { lowest: length('168 in'), highest: length('174 in') })).not.toBeNull();
  });

  it('is refused where the fewest are more than the most', () => {
    expect(checkPlan({ ...UNTIL, least: 15 })).toMatchObject({ ok: false, reason: 'bad-stow-count' });
  });
});

describe('from the centre outward', () => {
  const places = (plan: StowPlan): readonly string[] =>
    [1, 2, 3, 4, 5].map((n) => `${sideOfStow(plan, n)} ${String(loopOfStow(plan, n))}`);

  it('each pair takes the next loop; on one side each stow does; in turn no loop is named', () => {
    expect(places({ ...FIXED, order: 'centreOut' })).toEqual(['left 1', 'right 1', 'left 2', 'right 2', 'left 3']);
    expect(places({ ...FIXED, order: 'centreOut', alternate: false })).toEqual([
      'left 1',
      'left 2',
      'left 3',
      'left 4',
      'left 5',
    ]);
    expect(places(FIXED)).toEqual(['left null', 'right null', 'left null', 'right null', 'left null']);
  });
});

describe('for every number of stows', () => {
  it('the root of the sum of squares is never more than the worst, and both grow', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 199 }), fc.boolean(), fc.boolean(), (stows, hasSpan, hasLead) => {
        const made = {
          span: length(hasSpan ? '3 in' : '0 in'),
          perStow: length('1/8 in'),
          ...(hasLead ? { leadIn: length('5 in') } : {}),
        };
        expect(rootSumSquares(made, stows).value).toBeLessThanOrEqual(worstCase(made, stows).value);
        expect(rootSumSquares(made, stows + 1).value).toBeGreaterThan(rootSumSquares(made, stows).value);
        expect(worstCase(made, stows + 1).value).toBeGreaterThan(worstCase(made, stows).value);
      }),
    );
  });
});
