/** Whether what was found for an utterance counts as heard. In doubt it does not. */
import type { Decoding } from './recognition-decoding';

export type Verdict =
  | { readonly kind: 'match'; readonly words: string }
  /** None of the phrases. */
  | { readonly kind: 'nomatch' }
  /** Two readings of one sound: the listener must ask. */
  | { readonly kind: 'unsure'; readonly candidates: readonly [string, string] };

export const NO_MATCH: Verdict = { kind: 'nomatch' };

/** The phrase of a decoding, or null where it is none, not the whole utterance, or mixed with other speech. */
export function phraseOf(decoding: Decoding | null): string | null {
  if (decoding === null || decoding.other || decoding.words.length === 0) return null;
  return decoding.words.join(' ');
}

/**
 * `first` is the best path; `second` the best one once the phrase of the first has been made dearer. Where the phrase
 * still wins, nothing else comes near it.
 */
export function judge(first: Decoding | null, second: Decoding | null): Verdict {
  const words = phraseOf(first);
  const other = phraseOf(second);
  if (words === null || other === null) return NO_MATCH;
  return words === other ? { kind: 'match', words } : { kind: 'unsure', candidates: [words, other] };
}
