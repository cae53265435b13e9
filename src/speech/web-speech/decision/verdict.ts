/** Whether what was found for an utterance counts as heard. In doubt it does not. */
import type { Automaton } from '../engine/automaton';
import { accepts } from '../engine/automaton';
import type { Decoding } from '../engine/decoding';
import { isPlausible } from '../engine/decoding';

/** What an utterance was heard as: the one form of it from the engine to whoever listens. */
export type Verdict =
  | { readonly kind: 'heard'; readonly words: string }
  /** None of the phrases; or, where the room is too loud, perhaps one that could not be made out. Never guessed. */
  | { readonly kind: 'notHeard'; readonly isTooLoud?: true }
  /** Wordings that come near to one another, the best first: the listener must ask. */
  | { readonly kind: 'ambiguous'; readonly candidates: readonly string[] };

export const NOT_HEARD: Verdict = { kind: 'notHeard' };
export const TOO_LOUD: Verdict = { kind: 'notHeard', isTooLoud: true };

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
  if (first === null || second === null) return NOT_HEARD;
  return first === second ? { kind: 'heard', words: first } : { kind: 'ambiguous', candidates: [first, second] };
}
