/** `exports`: packs at a table without a browser, and writes the sound export and all tampered ones. */
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Loft } from '../../domain/loft';
import { loadLoft } from '../../loft/load-loft';
import { parseExportText } from '../../record/chain/export-file';
import { keyPairFrom } from '../exports/demo-key';
import { keyTextOf, type Signer } from '../exports/remake';
import { tellStory } from '../exports/story';
import { must, Table } from '../exports/table';
import type { Sound } from '../exports/tamper';
import { TAMPERS } from '../exports/tampers';

const KEY_NAME = 'stowcall/quillhaven-rescue-loft/table-1/demo';
/** The first working day of the story, long past, so that no date in it depends on today. */
const BEGIN = Date.parse('2026-11-23T07:30:00.000Z');

export interface DemoExports {
  readonly sound: Sound;
  /** One pack of the sound journal. */
  readonly onePack: string;
  /** The loft's key, as a verifier is given it. */
  readonly key: string;
  /** Text of the code of each data card. */
  readonly cards: readonly string[];
}

/** Packs the story; the same loft gives the same bytes every time. `run` names the databases, which lie in memory. */
export async function makeDemoExports(loft: Loft, run: string): Promise<DemoExports> {
  const [table, other] = await Promise.all([tableOf(loft, run, 'kiosk'), tableOf(loft, `${run}-other`, 'other')]);
  await tellStory(table, loft);
  await other.begin('pack-0009', 'ines-calloway');
  other.leave();
  const text = must(await table.archive.exportText(null));
  const file = must(parseExportText(text));
  const foreign = must(await other.archive.exportText(null)).split('\n')[1] ?? '';
  const signer: Signer = { name: KEY_NAME, pair: await keyPairFrom('kiosk') };
  const forger: Signer = { name: KEY_NAME, pair: await keyPairFrom('forger') };
  const onePack = must(await table.archive.exportText('pack-0002'));
  const sound = { text, file, signer, forger, foreign };
  return { sound, onePack, key: await keyTextOf(signer), cards: table.cards };
}

function tableOf(loft: Loft, name: string, keyWord: string): Promise<Table> {
  return Table.open({ loft, name, keyName: KEY_NAME, keyWord, from: BEGIN });
}

/** Files by name, with the one line that says what each is. */
export async function demoFiles({ sound, onePack, key, cards }: DemoExports): Promise<ReadonlyMap<string, string>> {
  const files = new Map([
    ['sound.jsonl', sound.text],
    ['sound-one-pack.jsonl', onePack],
    ['loft-key.txt', `${key}\n`],
    ['card.txt', `${cards.at(-1) ?? ''}\n`],
  ]);
  const rows: { file: string; done: string; finds: string }[] = [];
  for (const [index, { name, done, finds, make }] of TAMPERS.entries()) {
    const file = `tampered-${String(index + 1).padStart(2, '0')}-${name}.jsonl`;
    files.set(file, await make(sound));
    rows.push({ file, done, finds });
  }
  files.set('tampered.json', `${JSON.stringify(rows, null, 2)}\n`);
  files.set('README.md', readme(rows));
  return files;
}

function readme(rows: readonly { file: string; done: string; finds: string }[]): string {
  return [
    '# Exports of an invented table',
    '',
    '**Invented for demonstration only.** Made by `npm run -s stowcall -- exports` from packs that were driven through the',
    'real machine, store and seals. The key that signs them is made from a word that stands in the source, so it proves nothing.',
    '',
    '`sound.jsonl` is the whole journal, `sound-one-pack.jsonl` one pack of it, `loft-key.txt` the key that its checkpoints',
    'are signed with, `card.txt` the code of a data card. Check one with `npm run -s stowcall -- verify FILE`.',
    '',
    '| File | What was done | Found as |',
    '| --- | --- | --- |',
    ...rows.map(({ file, done, finds }) => `| \`${file}\` | ${done} | ${finds} |`),
    '',
  ].join('\n');
}

/** Resolves to the exit code: 0 when all were written, 1 when the loft was refused. */
export async function runExports(args: readonly string[]): Promise<number> {
  const [out = 'demo-data/exports', ...more] = args;
  if (more.length > 0 || out.startsWith('-')) {
    console.error('Usage: exports [FOLDER]');
    return 2;
  }
  const paths = readdirSync('demo-data', { recursive: true, encoding: 'utf8' }).filter((path) =>
    path.endsWith('.yaml'),
  );
  const files = paths.map((path) => ({ path, text: readFileSync(join('demo-data', path), 'utf8') }));
  const { loft, refused } = loadLoft(files);
  if (loft === null) {
    for (const { file, reason } of refused) console.error(`${file}: ${reason}`);
    return 1;
  }
  const made = await demoFiles(await makeDemoExports(loft, 'exports'));
  mkdirSync(out, { recursive: true });
  for (const old of readdirSync(out)) if (old.startsWith('tampered-')) rmSync(join(out, old));
  for (const [name, text] of made) writeFileSync(join(out, name), text);
  console.log(`${made.size} files in ${out}`);
  return 0;
}
