/** The shipped phrase book, read as the kiosk reads it. */
import { readFileSync } from 'node:fs';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { COUNT_NOUNS } from '../../../src/domain/procedure';
import { loadPhraseBook } from '../../../src/voice/phrases/phrase-book';
import type { PhraseBook } from '../../../src/voice/phrases/phrase-book';

export const SOURCES = ['commands.gram', 'numbers.gram', 'quantities.gram'].map((file) => ({
  file,
  text: readFileSync(`grammars/${file}`, 'utf8'),
}));

export const ALL = { commands: COMMAND_NAMES, nouns: COUNT_NOUNS };

export function phraseBook(sources = SOURCES): PhraseBook {
  const loaded = loadPhraseBook(sources);
  if (!loaded.ok) throw new Error(loaded.detail);
  return loaded.value;
}
