/** Everything that the recogniser is told when the ear opens, in the page and in the tools alike. */
import type { PhraseBook } from './phrase-book';
import type { Vocabulary } from '../hearing';
import { lowRiskOf } from './low-risk';
import { othersOf, rivalsFor } from './near-words';
import type { Grammars } from '@stowcall/web-speech/core';

/** What may be said, what is known beside it, and which of it does little harm: JSGF texts. */
export function grammarsFor(vocabulary: Vocabulary, phraseBook: PhraseBook): Grammars {
  const lowRisk = lowRiskOf(vocabulary, phraseBook);
  return {
    wanted: [phraseBook.jsgfFor(vocabulary, null).jsgf],
    others: [phraseBook.jsgfFor(othersOf(vocabulary), null).jsgf],
    rivals: rivalsFor(vocabulary, phraseBook),
    lowRisk: lowRisk === null ? [] : [phraseBook.jsgfFor(lowRisk, null).jsgf],
  };
}
