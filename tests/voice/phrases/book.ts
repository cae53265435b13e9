/** The shipped phrase book, read as the kiosk reads it. */
import { readFileSync } from 'node:fs';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { COUNT_NOUNS } from '../../../src/domain/procedure';
import { loadPhraseBook } from '../../../src/voice/phrases/phrase-book';
import type { PhraseBook, PhraseVocabulary } from '../../../src/voice/phrases/phrase-book';
import type { Jsgf, PhoneLoop } from '@stowcall/grammar';
import { makeJsgf } from '@stowcall/grammar';

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

/** The vocabulary's phrases as a JSGF text, and the words in it (those of the loop apart). */
export function jsgfFor(book: PhraseBook, vocabulary: PhraseVocabulary, loop: PhoneLoop | null = null): Jsgf {
  const made = makeJsgf(book.grammar, book.rulesFor(vocabulary), { loop });
  if (!made.ok) throw new Error(made.detail);
  return made.value;
}
