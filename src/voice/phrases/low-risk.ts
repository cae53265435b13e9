/** The part of a vocabulary that does little harm where it was not said. */
import type { PhraseBook } from './phrase-book';
import type { Vocabulary } from '../hearing';

/** What the grammar declares to be of low risk; null where nothing is. */
export function lowRiskOf(vocabulary: Vocabulary, phraseBook: PhraseBook): Vocabulary | null {
  const commands = vocabulary.commands.filter((name) => phraseBook.riskOf(name) === 'low');
  // A count without a noun cannot be said, and a grammar of nothing is refused.
  const isSomething = commands.some((name) => name !== 'count') || vocabulary.nouns.length > 0;
  return commands.length > 0 && isSomething ? { commands, nouns: vocabulary.nouns } : null;
}
