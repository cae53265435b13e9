/** Makes the printable sheets of a loft: component labels, badges, command cards. */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { Command } from '../../domain/command';
import type { Loft } from '../../domain/loft';
import { badgeDigest } from '../../kiosk/sighting-of';
import { kindOfFile, loadLoft } from '../../loft/load-loft';
import { parseBadges, type HeldBadge } from '../../loft/parse-badges';
import { loadPhraseBook } from '../../voice/phrases/phrase-book';
import { labelSheets } from '../labels/sheets';

const USAGE = 'Usage: labels [--loft demo-data] [--out demo-data/labels]  makes printable sheets of labels and cards.';
const GRAMMARS = new URL('../../../grammars/', import.meta.url);

interface LoftFolder {
  readonly loft: Loft;
  /** Empty where the folder has no badges.yaml. */
  readonly badges: readonly HeldBadge[];
}

/** The loft in a folder with its badges, or null after the refusals have been printed. */
function readLoft(folder: string): LoftFolder | null {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.yaml'))
    .map((path) => ({ path: path.replaceAll('\\', '/'), text: readFileSync(join(folder, path), 'utf8') }));
  const { loft, refused } = loadLoft(files);
  const known = loft === null ? null : { people: loft.people, digestOf: badgeDigest };
  const file = files.find(({ path }) => kindOfFile(path) === 'badges');
  const badges = file === undefined ? null : parseBadges(file.path, file.text, known);
  const wrong = badges === null || badges.ok ? refused : [...refused, ...badges.refused];
  for (const one of wrong) console.error(`${join(folder, one.file)}:${String(one.line)}: ${one.reason}`);
  if (loft === null || badges?.ok === false) return null;
  if (badges === null) console.error(`${folder} has no badges.yaml, so the sheet of badges is empty.`);
  return { loft, badges: badges?.value ?? [] };
}

/** The words for each command, from the grammars; null after their fault has been printed. */
function readPhrases(): ((command: Command) => string) | null {
  const sources = readdirSync(GRAMMARS)
    .filter((file) => file.endsWith('.gram'))
    .map((file) => ({ file, text: readFileSync(new URL(file, GRAMMARS), 'utf8') }));
  const book = loadPhraseBook(sources);
  if (book.ok) return (command) => book.value.phraseFor(command);
  console.error(book.detail);
  return null;
}

/**
 * Writes one HTML file for each sheet, ready to be printed from a browser at 100 %. Resolves to the exit code: 0 when
 * all were written, 1 when the loft or the grammars were refused, 2 when the call was wrong or a file cannot be read
 * or written.
 */
export function runLabels(args: readonly string[]): Promise<number> {
  try {
    const { values } = parseArgs({
      args: [...args],
      options: { loft: { type: 'string', default: 'demo-data' }, out: { type: 'string', default: 'demo-data/labels' } },
    });
    const read = readLoft(values.loft);
    const phraseFor = readPhrases();
    if (read === null || phraseFor === null) return Promise.resolve(1);
    mkdirSync(values.out, { recursive: true });
    for (const { file, html } of labelSheets(read, phraseFor)) {
      writeFileSync(join(values.out, file), html);
      console.log(join(values.out, file));
    }
    return Promise.resolve(0);
  } catch (error) {
    console.error(`${error instanceof Error ? error.message : String(error)}\n${USAGE}`);
    return Promise.resolve(2);
  }
}
