/** The demo loft as the page loads it, for tests that pack along with it. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Loft } from '../../../src/domain/loft';
import { loadLoft } from '../../../src/loft/load-loft';
import { loadPhraseBook, type PhraseBook } from '../../../src/voice/phrases/phrase-book';

const root = join(import.meta.dirname, '../../..');

/** All of demo-data, checked by the same code as the page's. */
export function demoLoft(): Loft {
  const folder = join(root, 'demo-data');
  const procedures = readdirSync(join(folder, 'procedures')).map((file) => `procedures/${file}`);
  const files = ['loft.yaml', 'people.yaml', 'assemblies.yaml', ...procedures];
  const { loft, refused } = loadLoft(files.map((path) => ({ path, text: readFileSync(join(folder, path), 'utf8') })));
  if (loft === null || refused.length > 0) throw new Error(`the demo loft is not in order: ${JSON.stringify(refused)}`);
  return loft;
}

/** The phrase book that the page listens with. */
export function demoPhrases(): PhraseBook {
  const folder = join(root, 'grammars');
  const sources = readdirSync(folder)
    .filter((file) => file.endsWith('.gram'))
    .map((file) => ({ file, text: readFileSync(join(folder, file), 'utf8') }));
  const book = loadPhraseBook(sources);
  if (!book.ok) throw new Error(book.detail);
  return book.value;
}
