/**
 * `npm run mutate -- src/domain src/packing/badge/pin-rule.ts:10-20`: breaks the named folders, files or lines one place at a
 * time and asks the tests beside them (`tests/domain`, `tests/packing`) whether they notice. The report is
 * `.cache/mutation/NAMES.json`. STOWCALL_MUTATION_TESTS names other tests (files, between commas); words that begin with
 * `-` go on to Stryker, such as `--testRunner=vitest`.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { run, say, Stop } from './say.mjs';

/** State graphs, random walks, all figures (seconds each), and what wants a package's data: asked by name only. */
const SLOW = [
  'packing/graph/(graph.*|walks)',
  'speech/grammar/(srgs/(abnf-properties|grxml-properties|srgs-conformance)|sisr/tag-properties)',
  'voice/phrases/(any-words|numbers|recogniser-grammar|over-match|pronunciations|spoken-forms)',
].map((name) => new RegExp(`^tests/${name}[.]test[.]ts$`));
/** Folders whose tests need nothing of vitest that the quick runner lacks. */
const QUICK = [
  'src/domain',
  'src/packing',
  'src/record/chain',
  'src/scan/symbology',
  'src/speech/grammar',
  'src/voice/phrases',
];
const LINES = /\.ts(:[\d:-]+)?$/;

/** Folder of a named place: `src/packing/badge/pin-rule.ts:10-20` lies in `src/packing/badge`. @param {string} place */
const folderOf = (place) => (LINES.test(place) ? place.replace(/\/[^/]+$/, '') : place.replace(/\/$/, ''));

/** @param {string} folder */
const isQuick = (folder) => QUICK.some((quick) => folder === quick || folder.startsWith(`${quick}/`));

/** Stories of whole packs notice most of what breaks in any folder of the pack. @param {string} folder */
const askedFor = (folder) => (folder.startsWith('src/packing/') ? 'src/packing' : folder);

/** The quick tests of a folder. @param {string} folder */
function testsOf(folder) {
  const tests = folder.replace(/^src/, 'tests');
  if (!existsSync(tests)) throw new Stop(`There are no tests in ${tests}. Name them in STOWCALL_MUTATION_TESTS.`);
  const files = readdirSync(tests, { recursive: true }).map((file) => join(tests, String(file)));
  return files.filter((file) => file.endsWith('.test.ts') && !SLOW.some((slow) => slow.test(file))).toSorted();
}

await run(async () => {
  const words = process.argv.slice(2);
  const options = words.filter((word) => word.startsWith('-'));
  const places = words.filter((word) => !word.startsWith('-'));
  const folders = [...new Set(places.map(folderOf))];
  const unknown = folders.filter((folder) => !/^src\/./.test(folder) || !existsSync(folder));
  if (places.length === 0) throw new Stop('Name what to break: npm run mutate -- src/domain');
  if (unknown.length > 0) throw new Stop(`There is no ${unknown.join(', ')}. Name folders or files below src.`);
  const tests = process.env.STOWCALL_MUTATION_TESTS ?? [...new Set(folders.map(askedFor))].flatMap(testsOf).join(',');
  const env = {
    STOWCALL_SHARED: resolve('../shared'),
    ...process.env,
    STOWCALL_MUTATION_TESTS: tests,
    STOWCALL_MUTATE: places.map((place) => (LINES.test(place) ? place : `${folderOf(place)}/**/*.ts`)).join(','),
    STOWCALL_MUTATION_NAME: folders.map((folder) => folder.replace(/^src\//, '').replaceAll('/', '-')).join('+'),
    STOWCALL_MUTATION_RUNNER: folders.every(isQuick) ? 'quick' : 'vitest',
  };
  say(`Breaking ${places.join(', ')}; asking ${tests.replaceAll(',', ' ')}`);
  const stryker = ['node_modules/@stryker-mutator/core/bin/stryker.js', 'run'];
  const { status } = spawnSync(process.execPath, [...stryker, ...options], { env, stdio: 'inherit' });
  if (status !== 0) process.exitCode = 1;
});
