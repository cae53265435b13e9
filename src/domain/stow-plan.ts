/** The stow plan of a stage: how much line goes into how many stows, and how much must remain. */
import type { Quantity } from './quantity';

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
