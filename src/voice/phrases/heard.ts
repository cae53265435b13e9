/** From the recogniser's readings of one utterance to what was heard: a command, a question, or nothing. */
import type { PhraseBook } from './phrase-book';
import type { Heard, Vocabulary } from '../hearing';

/** `readings` are the wordings that come near to one another, the best first; none where nothing was recognised. */
export function heardFrom(
  readings: readonly string[],
  vocabulary: Vocabulary,
  phraseBook: PhraseBook,
  msToDecision: number,
): Heard {
  const meanings = readings.map((words) => phraseBook.understand(vocabulary, words));
  const [words = ''] = readings;
  const [meaning] = meanings;
  if (meaning === undefined || meaning.kind === 'none') return { kind: 'notHeard' };
  // Two wordings of one command ("thirty seven inches", "measured thirty seven inches") are no question.
  const isOne = meanings.every((other) => JSON.stringify(other) === JSON.stringify(meaning));
  if (meaning.kind === 'command' && isOne) return { kind: 'heard', command: meaning.command, words, msToDecision };
  const candidates = meanings.flatMap((one, index) =>
    one.kind === 'ambiguous' ? one.candidates.map((command) => phraseBook.phraseFor(command)) : [readings[index] ?? ''],
  );
  return { kind: 'ambiguous', candidates: [...new Set(candidates)] };
}
