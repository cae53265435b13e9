/** The stow plan of a stage: how much line goes into how many stows, and how much must remain. */
import { assert } from '../assert';
import type { Band, ExpectedBand } from '../measure';
import { bandAround } from '../measure';
import type { Quantity } from '../quantity';
import { add, compareQuantities, inUnit, scale, subtract } from '../quantity';
import { worstCase } from './stow-spread';

export const SIDES = ['left', 'right'] as const;
export type Side = (typeof SIDES)[number];

/** Where the next stow lies: in turn along the row, or on the free loop that is nearest the centre of the bag. */
export const STOW_ORDERS = ['inTurn', 'centreOut'] as const;
export type StowOrder = (typeof STOW_ORDERS)[number];

/** Members that may be absent are younger than the first journals; a file of today states them. */
export interface StowPlan {
  /** Stows planned; where `least` is given, the most that may be made. */
  readonly stows: number;
  /** The fewest stows of a plan that ends when the wanted remainder is reached; absent where their number is fixed. */
  readonly least?: number | undefined;
  /** Length L of one stow's bight. */
  readonly bight: Quantity;
  /** Span S that the line crosses to reach the next stow. A stow uses 2L + S. */
  readonly span: Quantity;
  /** Line between the links and the first stow, laid before any stow is made; absent for none. */
  readonly leadIn?: Quantity | undefined;
  /** Line to be stowed when the stage begins; nominal where `lineFrom` gives the measured value. */
  readonly line: Quantity;
  /** Id of an earlier measuring stage whose affirmed value replaces `line`; null for none. */
  readonly lineFrom: string | null;
  /** Line that must remain after the last stow. */
  readonly remainder: Quantity;
  /** How far the remainder may fall short of, and go beyond, the stated one; with a fixed number the computed one too. */
  readonly under: Quantity;
  readonly over: Quantity;
  /** How far any length that a hand sets, a bight or a span, may be off; absent in plans older than this member. */
  readonly perStow?: Quantity | undefined;
  readonly firstSide: Side;
  /** False where all stows lie on one side. */
  readonly alternate: boolean;
  /** Absent: in turn. */
  readonly order?: StowOrder | undefined;
  /** Whose left and right are meant: "as seen from the mouth of the bag". Absent in plans older than this member. */
  readonly viewpoint?: string | undefined;
  /** Turns of the retainer band around each bight. */
  readonly wraps: number;
}

/** The fewest stows with which the stage may end. */
export function leastStows({ least, stows }: StowPlan): number {
  return least ?? stows;
}

/** True where the rigger stows until the wanted remainder is reached. */
export function isUntil(plan: StowPlan): boolean {
  return leastStows(plan) < plan.stows;
}

/** Line that one stow takes: up the bight, back down, and across to the next. 2L + S, in the unit of the bight. */
export function linePerStow(plan: StowPlan): Quantity {
  return add(scale(plan.bight, 2), plan.span);
}

/** Line that `stows` stows take, the lead-in before them included; in the unit of the bight. */
export function lineUsed(plan: StowPlan, stows: number): Quantity {
  const used = scale(linePerStow(plan), stows);
  return plan.leadIn === undefined ? used : add(used, plan.leadIn);
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

/** The side due next after `done` stows; null when no further one may be made. */
export function nextSide(plan: StowPlan, done: number): Side | null {
  return done >= plan.stows ? null : sideOfStow(plan, done + 1);
}

/**
 * On which loop of its side stow number `n` lies, counted from the centre outward; null where the plan stows in turn.
 * With alternating sides each pair takes the next loop: left one, right one, left two, right two.
 */
export function loopOfStow(plan: StowPlan, n: number): number | null {
  if (plan.order !== 'centreOut') return null;
  return plan.alternate ? Math.ceil(n / 2) : n;
}

/** The remainder that the plan itself states, with its tolerance, whatever line the stage begins with. */
export function statedBand(plan: StowPlan): Band {
  const { lowest, highest } = bandAround(plan.remainder, plan);
  return { lowest, highest };
}

/**
 * What may remain after `stows` stows when the stage began with `lineAtStart`. It is computed from that line and the
 * stows that were made, so that an error made earlier does not hide in a fixed number, and lies never outside what the
 * plan states. Around the computed remainder the plan's own tolerance counts where the number of stows is fixed; where
 * it is free that tolerance says what is wanted, so what these stows can do at worst counts. In the unit of the stated
 * remainder. With too little or too much line nothing can lie inside: `lowest` is then above `highest`.
 */
export function remainderBand(plan: StowPlan, lineAtStart: Quantity, stows: number = plan.stows): ExpectedBand {
  const expected = inUnit(lineLeft(lineAtStart, plan, stows), plan.remainder.unit);
  const stated = statedBand(plan);
  const around = isUntil(plan) ? worstCase(plan, stows) : null;
  const { lowest, highest } = bandAround(expected, around === null ? plan : { under: around, over: around });
  return {
    expected,
    lowest: compareQuantities(lowest, stated.lowest) < 0 ? stated.lowest : lowest,
    highest: compareQuantities(highest, stated.highest) > 0 ? stated.highest : highest,
  };
}
