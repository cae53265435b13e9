/** Whether what was found for an utterance counts as heard. In doubt it does not. */
import type { Decoding } from './recognition-decoding';

export type Verdict =
  | { readonly kind: 'match'; readonly words: string; readonly confidence: number }
  /** None of the phrases. */
  | { readonly kind: 'nomatch' }
  /** Two readings of one sound: the listener must ask. */
  | { readonly kind: 'unsure'; readonly candidates: readonly string[] };

export const NO_MATCH: Verdict = { kind: 'nomatch' };

/** The phrase of a decoding, or null where it is none, not the whole utterance, or mixed with other speech. */
export function phraseOf(decoding: Decoding | null): string | null {
  if (decoding === null || decoding.other || decoding.words.length === 0) return null;
  return decoding.words.join(' ');
}

/** The verdict on one decoding alone. */
export function judge(decoding: Decoding | null): Verdict {
  const words = phraseOf(decoding);
  return words === null ? NO_MATCH : { kind: 'match', words, confidence: 1 };
}
