/** Which view of the next frame the deciding reader looks at: the one that worked last, else the next in turn. */
import { PASSES } from './frame';
import type { Pass } from './frame';

export interface PassPlan {
  readonly next: Pass;
  /** Frames since the last one in which something was read. */
  readonly misses: number;
}

export const FIRST_PLAN: PassPlan = { next: 'plain', misses: 0 };

/** After a reading the same view is used again, so that the second frame agrees at once; otherwise the cycle goes on. */
export function planNext(plan: PassPlan, hasRead: boolean): PassPlan {
  if (hasRead) return { next: plan.next, misses: 0 };
  const after = (PASSES.indexOf(plan.next) + 1) % PASSES.length;
  return { next: PASSES[after] ?? 'plain', misses: plan.misses + 1 };
}
