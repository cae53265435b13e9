/** What can be counted aloud in one go. */
import type { Remark } from './context';
import { refusal } from './decision';
import { plain } from './words';

/** Nothing on a packing table comes in greater numbers. */
export const MOST_COUNTED = 200;

/** A whole number from none to the most. */
export function isSoundCount(count: number): boolean {
  return Number.isInteger(count) && count >= 0 && count <= MOST_COUNTED;
}

/** Said to a count that is no count. */
export function unsoundCount(): Remark {
  return refusal(plain('That is no count. Count again.'));
}
