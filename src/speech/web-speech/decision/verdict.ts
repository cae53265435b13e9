/** Whether what was found for an utterance counts as heard. In doubt it does not. */
import type { Automaton } from '../engine/automaton';
import { accepts } from '../engine/automaton';
import type { Decoding } from '../engine/decoding';
import { isPlausible } from '../engine/decoding';

export type Verdict =
  | { readonly kind: 'match'; readonly words: string }
  /** None of the phrases; or, where the room is too loud, perhaps one that could not be made out. */
  | { readonly kind: 'nomatch'; readonly isTooLoud?: true }
  /** Two readings of one sound: the listener must ask. */
  | { readonly kind: 'unsure'; readonly candidates: readonly [string, string] };

export const NO_MATCH: Verdict = { kind: 'nomatch' };
export const TOO_LOUD: Verdict = { kind: 'nomatch', isTooLoud: true };

/**
 * The phrase of a decoding, or null where it is none of those listened for, not the whole utterance, mixed with other
 * speech, or nothing that anybody could have said. `loud` has one entry for each frame.
 */
export function phraseOf(decoding: Decoding | null, wanted: Automaton, loud: readonly boolean[]): string | null {
  if (decoding === null || decoding.other || !accepts(wanted, decoding.words)) return null;
  return isPlausible(decoding, loud) ? decoding.words.join(' ') : null;
}

/**
 * `first` is the phrase of the best path; `second` that of the best one once the first has been made dearer. Where the
 * first still wins, nothing else comes near it.
 */
export function judge(first: string | null, second: string | null): Verdict {
  if (first === null || second === null) return NO_MATCH;
  return first === second ? { kind: 'match', words: first } : { kind: 'unsure', candidates: [first, second] };
}
