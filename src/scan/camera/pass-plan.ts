/** Which views of the next frame the deciding reader looks at: the frame itself, and one more in turn. */
import { PASSES } from './frame';
import type { Pass } from './frame';

/** The frame as it is reads matrix codes at any angle and upright linear ones; the others help it out in turn. */
const OTHERS: readonly Pass[] = PASSES.filter((pass) => pass !== 'plain');

/** For a frame that is most likely smeared: not worth more. */
export const PLAIN_ONLY: readonly Pass[] = ['plain'];

/** Index of the other view to be used next. */
export type PassPlan = number;

export const FIRST_PLAN: PassPlan = 0;

/** The views for the next frame, in order; the second is looked at only if the first shows nothing. */
export function passesOf(plan: PassPlan): readonly Pass[] {
  return ['plain', OTHERS[plan % OTHERS.length] ?? 'crop'];
}

/** After a reading the same view is used again, so that the next frame agrees at once; otherwise the turn goes on. */
export function planNext(plan: PassPlan, hasRead: boolean): PassPlan {
  return hasRead ? plan : (plan + 1) % OTHERS.length;
}

/** All views that a label held still is looked at through, in the order in which their turn comes. */
export function stillPasses(): readonly Pass[] {
  return ['plain', ...OTHERS];
}
