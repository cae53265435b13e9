/** Which views of the next frame the deciding reader looks at: the frame itself, and one more in turn. */
import { PASSES } from './frame';
import type { Pass } from './frame';

const isTurned = (pass: Pass): boolean => pass.startsWith('turn');
const TURNED = PASSES.filter(isTurned);
const MENDED = PASSES.filter((pass) => pass !== 'plain' && !isTurned(pass));

/**
 * The frame as it is reads matrix codes at any angle and upright linear ones; the others help it out in turn. A good
 * label at an angle must not wait for the views of bad pictures, which take several times as long: all turned views
 * come round between one of those and the next.
 */
const OTHERS: readonly Pass[] = MENDED.flatMap((pass) => [...TURNED, pass]);

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

/** All views that a label held still is looked at through, in the order in which their turn first comes. */
export function stillPasses(): readonly Pass[] {
  return [...new Set<Pass>(['plain', ...OTHERS])];
}
