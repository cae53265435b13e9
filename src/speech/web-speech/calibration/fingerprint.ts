/** Tells one state of the ear from another, so that searches are kept no longer than they are true. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';

/** Code that is imported from a place in this project, types aside: they change nothing that is computed. */
const IMPORT = /^(?:import|export)\s+(?!type\b)[^;]*?from\s+'(\.{1,2}\/[^']+|@stowcall\/[^']+)'/gm;
/** Where the project's own packages lie. */
const PACKAGES = join(import.meta.dirname, '../..');
type Entries = Readonly<Record<string, string>>;
/** Thresholds and weight are what a calibration chooses: it asks for each of them itself. */
const CHOSEN = /(certainty|weight)\.json$/;

/** The engine, and what puts a recording into a room: every calibration depends on both. */
export const SEARCHERS = [
  'src/speech/web-speech/engine/engine.ts',
  'src/speech/web-speech/calibration/room.ts',
] as const;

/** What a search depends on. */
export interface Searched {
  /** Folder of the project: files count by their path below it. */
  readonly root: string;
  /** The programs that make the sounds and search them: each counts with every file that it imports, however far away. */
  readonly entries: readonly string[];
  /** Data that are read and not imported: pronunciations, the list of recordings, versions of engine and model. */
  readonly data: readonly string[];
  /** Settings of this calibration. */
  readonly more: unknown;
}

/** The files that these programs are made of, themselves included, in a fixed order. Throws for an import that leads nowhere. */
export function filesOf(entries: readonly string[]): readonly string[] {
  const found = new Set<string>();
  const open = [...entries];
  for (let file = open.pop(); file !== undefined; file = open.pop()) {
    if (found.has(file) || CHOSEN.test(file)) continue;
    found.add(file);
    if (/\.tsx?$/.test(file)) open.push(...importsOf(file));
  }
  return [...found].sort();
}

/** The file behind an entry of one of the project's own packages, by the `exports` of that package. */
function inPackage(path: string): string {
  const [, name = '', entry = ''] = /^@stowcall\/([^/]+)(.*)$/.exec(path) ?? [];
  const folder = join(PACKAGES, name);
  const { exports } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as { exports: Entries };
  const wanted = `.${entry}`;
  for (const [key, target] of Object.entries(exports)) {
    const [before = '', after] = key.split('*');
    if (after === undefined ? key === wanted : wanted.startsWith(before)) {
      return join(folder, target.replace('*', wanted.slice(before.length)));
    }
  }
  return join(folder, entry);
}

function importsOf(file: string): readonly string[] {
  const text = readFileSync(file, 'utf8');
  return [...text.matchAll(IMPORT)].map(([, path = '']) => {
    const plain = (path.startsWith('@stowcall/') ? inPackage(path) : join(dirname(file), path)).replace(/\?.*$/, '');
    const there = [plain, `${plain}.ts`, `${plain}.tsx`].find((one) => /\.\w+$/.test(one) && existsSync(one));
    if (there === undefined) throw new Error(`${file} imports ${path}, which is not there.`);
    return there;
  });
}

/** SHA-256, in hex, of everything that decides what a search finds. */
export function fingerprintOf({ root, entries, data, more }: Searched): string {
  const hash = createHash('sha256').update(JSON.stringify(more));
  for (const file of [...filesOf(entries), ...data]) {
    hash.update(`\n${relative(root, file)}\n`).update(readFileSync(file));
  }
  return hash.digest('hex');
}

/** Engine, model, pronunciations and recordings of the project at `root`, as files to count in. */
export function searchedData(root: string, shared: string): readonly string[] {
  const below = (folder: string, ending: string): readonly string[] =>
    existsSync(folder)
      ? readdirSync(folder)
          .filter((file) => file.endsWith(ending))
          .sort()
          .map((file) => join(folder, file))
      : [];
  return [
    join(root, 'grammars/pronunciations.txt'),
    join(root, 'node_modules/soundswallower/package.json'),
    ...below(join(root, '.stowcall/model/en-us-16k'), ''),
    join(shared, 'speech/an4/utterances.jsonl'),
    ...below(join(shared, 'speech/noise'), '.wav'),
  ].filter((file) => existsSync(file));
}
