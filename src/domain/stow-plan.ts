/** The stow plan of a stage: how much line goes into how many stows, and how much must remain. */
import { assert } from './assert';
import type { Quantity } from './quantity';
import { add, compareQuantities, inUnit, makeQuantity, scale, subtract } from './quantity';
import type { Result } from './result';
import { ok, refused } from './result';

export const SIDES = ['left', 'right'] as const;
export type Side = (typeof SIDES)[number];

export interface StowPlan {
  /** Stows planned. */
  readonly stows: number;
  /** Length L of one stow's bight. */
  readonly bight: Quantity;
  /** Span S that the line crosses to reach the next stow. A stow uses 2L + S. */
  readonly span: Quantity;
  /** Line to be stowed when the stage begins; nominal where `lineFrom` gives the measured value. */
  readonly line: Quantity;
  /** Id of an earlier measuring stage whose affirmed value replaces `line`; null for none. */
  readonly lineFrom: string | null;
  /** Line that must remain after the last stow. */
  readonly remainder: Quantity;
  /** How far the remainder may fall short of, and go beyond, the computed one. */
  readonly under: Quantity;
  readonly over: Quantity;
  readonly firstSide: Side;
  /** False where all stows lie on one side. */
  readonly alternate: boolean;
  /** Turns of the retainer band around each bight. */
  readonly wraps: number;
}

/** Line that one stow takes: up the bight, back down, and across to the next. 2L + S, in the unit of the bight. */
export function linePerStow(plan: StowPlan): Quantity {
  return add(scale(plan.bight, 2), plan.span);
}

/** Line that `stows` stows take, in the unit of the bight. */
export function lineUsed(plan: StowPlan, stows: number): Quantity {
  return scale(linePerStow(plan), stows);
}

/** Line that should remain after `stows` stows, in the unit of `lineAtStart`; below zero when there is not enough. */
export function lineLeft(lineAtStart: Quantity, plan: StowPlan, stows: number): Quantity {
  return subtract(lineAtStart, lineUsed(plan, stows));
}

/** The side of stow number `n`, counted from 1. */
export function sideOfStow(plan: StowPlan, n: number): Side {
  assert(Number.isInteger(n) && n >= 1, 'stows are counted from one');
  if (!plan.alternate || n % 2 === 1) return plan.firstSide;
  return plan.firstSide === 'left' ? 'right' : 'left';
}

/** The side due next after `done` stows; null when all are done. */
export function nextSide(plan: StowPlan, done: number): Side | null {
  return done >= plan.stows ? null : sideOfStow(plan, done + 1);
}

export interface RemainderBand {
  readonly expected: Quantity;
  readonly lowest: Quantity;
  readonly highest: Quantity;
}

/**
 * What may remain after the last stow when the stage began with `lineAtStart`: computed from that line, so that an
 * error made earlier does not hide in a fixed number. In the unit of the stated remainder; never below zero.
 */
export function remainderBand(plan: StowPlan, lineAtStart: Quantity): RemainderBand {
  const { unit } = plan.remainder;
  const floor: Quantity = { value: 0, unit };
  const atLeastNone = (q: Quantity): Quantity => (compareQuantities(q, floor) < 0 ? floor : q);
  const expected = inUnit(lineLeft(lineAtStart, plan, plan.stows), unit);
  return {
    expected: atLeastNone(expected),
    lowest: atLeastNone(subtract(expected, plan.under)),
    highest: atLeastNone(add(expected, plan.over)),
  };
}

const MOST_STOWS = 200;
const MOST_WRAPS = 9;

function wholeBetween(value: number, least: number, most: number): boolean {
  return Number.isInteger(value) && value >= least && value <= most;
}

/** Refuses a plan whose own numbers cannot leave the remainder that it states. */
export function checkPlan(
  plan: StowPlan,
): Result<void, 'remainder-impossible' | 'not-enough-line' | 'bad-stow-count' | 'bad-length'> {
  if (!wholeBetween(plan.stows, 1, MOST_STOWS) || !wholeBetween(plan.wraps, 1, MOST_WRAPS)) {
    return refused(
      'bad-stow-count',
      'A stow plan needs at least one stow and at least one wrap of the band, as whole numbers.',
    );
  }
  const positive = [plan.bight, plan.line];
  const lengths = [...positive, plan.span, plan.remainder, plan.under, plan.over];
  if (positive.some((q) => q.value <= 0) || lengths.some((q) => !Number.isFinite(q.value) || q.value < 0)) {
    return refused('bad-length', 'Bight and line of a stow plan must be above zero, and no length below it.');
  }
  const left = lineLeft(plan.line, plan, plan.stows);
  const sum = `${makeQuantity(plan.line)} less ${String(plan.stows)} stows of ${makeQuantity(linePerStow(plan))}`;
  if (left.value < 0) {
    return refused('not-enough-line', `There is not enough line: ${sum} is below zero. Correct the stow plan.`);
  }
  const lowest = subtract(plan.remainder, plan.under);
  const highest = add(plan.remainder, plan.over);
  if (compareQuantities(left, lowest) < 0 || compareQuantities(left, highest) > 0) {
    const stated = `between ${makeQuantity(lowest)} and ${makeQuantity(highest)}`;
    return refused(
      'remainder-impossible',
      `${sum} leaves ${makeQuantity(left)}, not ${stated}. Correct the stow plan.`,
    );
  }
  return ok(undefined);
}
