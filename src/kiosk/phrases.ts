/** The phrase book from the grammar files, which are the only source of every phrase. */
import type { PhraseBook } from '../voice/phrases/phrase-book';
import { loadPhraseBook } from '../voice/phrases/phrase-book';
import { assert } from '../domain/assert';

const grammars = import.meta.glob<string>('../../grammars/*.gram', { query: '?raw', import: 'default', eager: true });

/** Throws where the grammars are broken: they are built in, so that is a defect of ours. */
export function phraseBook(): PhraseBook {
  const sources = Object.entries(grammars).map(([path, text]) => ({
    file: path.slice(path.lastIndexOf('/') + 1),
    text,
  }));
  const book = loadPhraseBook(sources);
  assert(book.ok, `the built-in grammars are sound: ${book.ok ? '' : book.detail}`);
  return book.value;
}
