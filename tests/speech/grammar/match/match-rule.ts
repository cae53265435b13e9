/** One utterance against one rule. */
import type { LinkedGrammar } from '../../../../src/speech/grammar/srgs/link';
import { Matcher, type Match } from '../../../../src/speech/grammar/match/match';

/** Matches all of `words` against a rule of the entry grammar, public or private. Null where they do not match. */
export function matchRule(grammar: LinkedGrammar, rule: string, words: readonly string[]): Match | null {
  return new Matcher(grammar, words).match(rule);
}
