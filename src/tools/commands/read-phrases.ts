/** The phrase book from the grammar files on disk. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadPhraseBook, type PhraseBook } from '../../voice/phrases/phrase-book';

/** The phrase book of the project at `root`. */
export function readPhraseBook(root: string): PhraseBook {
  const files = readdirSync(join(root, 'grammars')).filter((file) => file.endsWith('.gram'));
  const book = loadPhraseBook(
    files.map((file) => ({ file, text: readFileSync(join(root, 'grammars', file), 'utf8') })),
  );
  if (!book.ok) throw new Error(book.detail);
  return book.value;
}
