/** What can be counted aloud in one go. */
import { MOST_COUNTED } from '../../domain/enterable';
import type { Remark } from '../machine/context';
import { refusal } from '../machine/decision';
import { plain } from './words';

/** A whole number from none to the most. */
export function isSoundCount(count: number): boolean {
  return Number.isInteger(count) && count >= 0 && count <= MOST_COUNTED;
}

/** Said to a count that is no count. */
export function unsoundCount(): Remark {
  return refusal(plain('That is no count. Count again.'));
}
