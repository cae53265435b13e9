/** What is asked for now, of a prompt whose other parts its screen draws itself: title, lines, caution and choices. */
import { shownOf, type StepPrompt } from '../contract/pack-view';

/** What to do and what can be said, in the order in which it is said; empty where nothing is asked for. */
export function askedOf({ parts }: StepPrompt): string {
  return shownOf(parts, ['todo', 'say']);
}
