/** How far hand-made stows let the remainder stray: at worst, and as independent errors add up. */
import type { Quantity } from '../quantity';
import { scale } from '../quantity';

/** What these sums need of a stow plan; the members are explained there. */
export interface HandMade {
  readonly span: Quantity;
  readonly leadIn?: Quantity | undefined;
  readonly perStow?: Quantity | undefined;
}

const NONE: Quantity = { value: 0, unit: 'in' };

function isSet(length: Quantity | undefined): boolean {
  return length !== undefined && length.value > 0;
}

/**
 * Every error at its limit and all to one side. A stow takes u = 2L + S, so a bight that is off by t takes 2t more or
 * less (up and back down), and a span that is off by t takes t. For n stows: n (2t + t) = 3nt; n 2t where there is no
 * span; and t more for a lead-in, which is laid once. Nothing where the plan states no `perStow`.
 */
export function worstCase({ span, leadIn, perStow }: HandMade, stows: number): Quantity {
  if (perStow === undefined) return NONE;
  return scale(perStow, stows * (isSet(span) ? 3 : 2) + (isSet(leadIn) ? 1 : 0));
}

/**
 * Independent errors add as the root of the sum of their squares: for y = sum of a_i x_i it is
 * sqrt(sum of (a_i t_i)^2) (propagation of error, NIST/SEMATECH e-Handbook of Statistical Methods 2.5.5). Here a = 2 for
 * each bight and 1 for each span and for the lead-in, and every t is the same, so n stows give t sqrt(n (2^2 + 1^2) + 1)
 * = t sqrt(5n + 1); without span 4n in place of 5n, without lead-in no 1. The bight's two legs are one error, set by
 * one hand in one act, which is why it is (2t)^2 and not t^2 + t^2. Nothing where the plan states no `perStow`.
 */
export function rootSumSquares({ span, leadIn, perStow }: HandMade, stows: number): Quantity {
  if (perStow === undefined) return NONE;
  const squares = stows * (isSet(span) ? 5 : 4) + (isSet(leadIn) ? 1 : 0);
  return scale(perStow, Math.sqrt(squares));
}
