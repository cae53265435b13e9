/** Dictionaries written in tests, by word. */
import { parsePronunciations, pronunciationsByWord } from '../../../../src/speech/grammar/phones/pronunciations';
import type { Pronunciations } from '../../../../src/speech/grammar/phones/pronunciations';

export function known(...texts: readonly string[]): Pronunciations {
  const read = parsePronunciations(...texts);
  if (!read.ok) throw new Error(read.detail);
  return pronunciationsByWord(read.value);
}
