/** Refuses stow plans whose own numbers cannot leave the remainder that they state. */
import type { Band } from '../measure';
import { entryFault, holdsEntry, MOST_COUNTED } from '../enterable';
import type { Quantity } from '../quantity';
import { add, compareQuantities, forPeople, inUnit, makeQuantity, subtract } from '../quantity';
import type { Result } from '../result';
import { ok, refused } from '../result';
import type { StowPlan } from './stow-plan';
import { isUntil, leastStows, lineLeft, linePerStow, lineUsed, remainderBand, statedBand } from './stow-plan';
import { rootSumSquares, worstCase } from './stow-spread';

const MOST_WRAPS = 9;

export type PlanFault =
  | 'bad-stow-count'
  | 'bad-length'
  | 'cannot-be-entered'
  | 'not-enough-line'
  | 'remainder-below-zero'
  | 'remainder-impossible'
  | 'tolerance-too-narrow'
  | 'miscount-hidden';

type Checked = Result<void, PlanFault>;

function wholeBetween(value: number, least: number, most: number): boolean {
  return Number.isInteger(value) && value >= least && value <= most;
}

/** Rounded up, so that a tolerance that is written as it is said holds. */
function forAuthors({ value, unit }: Quantity): string {
  return makeQuantity({ value: forPeople(Math.ceil(value * 1000 - 1e-6) / 1000), unit });
}

/** Every number of stows with which the stage may end. */
function countsOf(plan: StowPlan): readonly number[] {
  const least = leastStows(plan);
  return Array.from({ length: plan.stows - least + 1 }, (_, index) => least + index);
}

function checkNumbers(plan: StowPlan): Checked {
  const { stows, wraps } = plan;
  const counts = wholeBetween(stows, 1, MOST_COUNTED) && wholeBetween(leastStows(plan), 1, stows);
  if (!counts || !wholeBetween(wraps, 1, MOST_WRAPS)) {
    return refused(
      'bad-stow-count',
      'A stow plan needs at least one stow and at least one wrap of the band, as whole numbers.',
    );
  }
  const { bight, line, span, remainder, under, over, perStow, leadIn } = plan;
  const positive = [bight, line, ...(perStow === undefined ? [] : [perStow])];
  const lengths = [...positive, span, remainder, under, over, ...(leadIn === undefined ? [] : [leadIn])];
  if (positive.some((q) => !(q.value > 0)) || lengths.some((q) => !Number.isFinite(q.value) || q.value < 0)) {
    return refused('bad-length', 'Bight and line of a stow plan must be above zero, and no length below it.');
  }
  return ok(undefined);
}

/** A remainder that may be nothing, or less, would let a pack through that has run out of line. */
function checkStated(plan: StowPlan): Checked {
  const { lowest, highest } = statedBand(plan);
  if (lowest.value <= 0) {
    const stated = `${makeQuantity(plan.remainder)}, and ${makeQuantity(plan.under)} under it is allowed`;
    return refused(
      'remainder-below-zero',
      `The plan states a remainder of ${stated}: that lets no line at all remain. Make "under" smaller or leave more line.`,
    );
  }
  const fault = entryFault(plan.remainder) ?? entryFault({ ...highest, value: Math.ceil(highest.value) });
  if (fault === null) return ok(undefined);
  return refused(
    'cannot-be-entered',
    `The remainder of ${makeQuantity(plan.remainder)} cannot be entered: ${fault}. State another one or another unit.`,
  );
}

/** The plan's nominal line must leave what the plan states, with at least one number of stows that it allows. */
function checkSum(plan: StowPlan): Checked {
  const stated = statedBand(plan);
  const least = leastStows(plan);
  const stows = isUntil(plan) ? `${String(least)} to ${String(plan.stows)}` : String(plan.stows);
  const lead = plan.leadIn === undefined ? '' : ` a lead-in of ${makeQuantity(plan.leadIn)} and`;
  const sum = `${makeQuantity(plan.line)} less${lead} ${stows} stows of ${makeQuantity(linePerStow(plan))}`;
  if (lineLeft(plan.line, plan, least).value < 0) {
    return refused('not-enough-line', `There is not enough line: ${sum} is below zero. Correct the stow plan.`);
  }
  const fits = countsOf(plan).some((count) => {
    const left = lineLeft(plan.line, plan, count);
    return compareQuantities(left, stated.lowest) >= 0 && compareQuantities(left, stated.highest) <= 0;
  });
  if (fits) return ok(undefined);
  const [most, fewest] = [lineLeft(plan.line, plan, least), lineLeft(plan.line, plan, plan.stows)].map(makeQuantity);
  const leaves = isUntil(plan) ? `${String(fewest)} to ${String(most)}` : most;
  return refused(
    'remainder-impossible',
    `${sum} leaves ${String(leaves)}, not between ${makeQuantity(stated.lowest)} and ${makeQuantity(stated.highest)}. Correct the stow plan.`,
  );
}

/** A plan promises no narrower band than its own stows come out with, and none in which a stow too many would hide. */
function checkTolerance(plan: StowPlan): Checked {
  const spread = rootSumSquares(plan, plan.stows);
  const worst = worstCase(plan, plan.stows);
  const [under, over] = [inUnit(plan.under, spread.unit), inUnit(plan.over, spread.unit)];
  if (compareQuantities(under, spread) < 0 || compareQuantities(over, spread) < 0) {
    const made = `${String(plan.stows)} stows made to within ${plan.perStow === undefined ? '' : makeQuantity(plan.perStow)} each`;
    return refused(
      'tolerance-too-narrow',
      `${made} come out to within ${forAuthors(spread)} (root of the sum of squares; at worst ${forAuthors(worst)}), so the plan cannot promise ${makeQuantity(plan.under)} under and ${makeQuantity(plan.over)} over. Allow more, or make fewer stows or truer ones.`,
    );
  }
  const one = linePerStow(plan);
  const around = isUntil(plan) ? [worst] : [plan.under, plan.over];
  if (around.every((tolerance) => compareQuantities(tolerance, one) < 0)) return ok(undefined);
  return refused(
    'miscount-hidden',
    `One stow takes ${makeQuantity(one)}, no more than the tolerance of the remainder, so a stow too many would not show. Allow less.`,
  );
}

/**
 * The first line from `lowest` to `highest` with which no number of stows that the plan allows leaves what it states,
 * with room for what hands do to those stows (root of the sum of squares); null where there is none.
 */
export function lineWithoutEnd(plan: StowPlan, { lowest, highest }: Band): Quantity | null {
  const stated = statedBand(plan);
  let reached = lowest;
  for (const count of countsOf(plan)) {
    const spread = rootSumSquares(plan, count);
    const used = lineUsed(plan, count);
    const from = add(add(used, stated.lowest), spread);
    const to = subtract(add(used, stated.highest), spread);
    if (compareQuantities(from, reached) > 0 || compareQuantities(to, reached) < 0) continue;
    if (compareQuantities(to, highest) >= 0) return null;
    reached = to;
  }
  return inUnit(reached, lowest.unit);
}

/** Whether a stage that begins with this line can end: with some number of stows a remainder can be measured and is right. */
export function canEnd(plan: StowPlan, lineAtStart: Quantity): boolean {
  return countsOf(plan).some((count) => canEndWith(plan, lineAtStart, count));
}

/** The same for one number of stows. */
export function canEndWith(plan: StowPlan, lineAtStart: Quantity, stows: number): boolean {
  const band = remainderBand(plan, lineAtStart, stows);
  return lineLeft(lineAtStart, plan, stows).value > 0 && band.lowest.value > 0 && holdsEntry(band);
}

/** Checks a plan by itself, before it is known with how much line its stage may begin. */
export function checkPlan(plan: StowPlan): Checked {
  for (const check of [checkNumbers, checkStated, checkSum, checkTolerance]) {
    const checked = check(plan);
    if (!checked.ok) return checked;
  }
  return ok(undefined);
}
