/** The phrase book from the grammar files, which are the only source of every phrase. */
import commands from '../../grammars/commands.gram?raw';
import type { PhraseBook } from '../voice/grammar/phrase-book';
import { loadPhraseBook } from '../voice/grammar/phrase-book';
import { assert } from '../domain/assert';

const others = import.meta.glob<string>('../../grammars/*.gram', { query: '?raw', import: 'default', eager: true });

/** Throws where the grammars are broken: they are built in, so that is a defect of ours. */
export function phraseBook(): PhraseBook {
  const sources = Object.entries(others).map(([path, text]) => ({ file: path.slice(path.lastIndexOf('/') + 1), text }));
  assert(commands.length > 0, 'the commands are built in');
  const book = loadPhraseBook(sources);
  assert(book.ok, `the built-in grammars are sound: ${book.ok ? '' : book.detail}`);
  return book.value;
}
