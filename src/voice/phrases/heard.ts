/** From the recogniser's verdict on one utterance to what was heard: a command, a question, or nothing. */
import type { PhraseBook } from './phrase-book';
import type { Heard, Vocabulary } from '../hearing';
import type { Verdict } from '@stowcall/web-speech/core';

/** What the words of a verdict are understood by. */
export interface Understanding {
  readonly vocabulary: Vocabulary;
  readonly phraseBook: PhraseBook;
  readonly msToDecision: number;
}

/** What a verdict means within the vocabulary. Wordings that mean different things become a question. */
export function heardFrom(verdict: Verdict, { vocabulary, phraseBook, msToDecision }: Understanding): Heard {
  if (verdict.kind === 'notHeard') return verdict;
  const readings = verdict.kind === 'heard' ? [verdict.words] : verdict.candidates;
  const meanings = readings.map((words) => phraseBook.understand(vocabulary, words));
  const [words = ''] = readings;
  const [meaning] = meanings;
  if (meaning === undefined || meaning.kind === 'none') return { kind: 'notHeard' };
  // Two wordings of one command ("thirty seven inches", "measured thirty seven inches") are no question.
  const isOne = meanings.every((other) => JSON.stringify(other) === JSON.stringify(meaning));
  if (meaning.kind === 'command' && isOne) return { kind: 'heard', words, command: meaning.command, msToDecision };
  const candidates = meanings.flatMap((one, index) =>
    one.kind === 'ambiguous' ? one.candidates.map((command) => phraseBook.phraseFor(command)) : [readings[index] ?? ''],
  );
  return { kind: 'ambiguous', candidates: [...new Set(candidates)] };
}
