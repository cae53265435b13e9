/**
 * `npm run mutate -- src/domain src/packing/pin-rule.ts:10-20`: breaks the named folders, files or lines one place at a
 * time and asks the tests beside them (`tests/domain`, `tests/packing`) whether they notice. The report is
 * `.cache/mutation/NAMES.json`. Words that begin with `-` go on to Stryker; STOWCALL_MUTATION_TESTS names other tests.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { run, say, Stop } from './say.mjs';

/** Folder of a named place: `src/packing/pin-rule.ts:10-20` lies in `src/packing`. @param {string} place */
const folderOf = (place) => place.replace(/\/[^/]+\.ts(:[\d:-]+)?$/, '').replace(/\/$/, '');

await run(async () => {
  const words = process.argv.slice(2);
  const places = words.filter((word) => !word.startsWith('-'));
  const folders = [...new Set(places.map(folderOf))];
  const unknown = folders.filter((folder) => !/^src\/./.test(folder) || !existsSync(folder));
  if (places.length === 0) throw new Stop('Name what to break: npm run mutate -- src/domain');
  if (unknown.length > 0) throw new Stop(`There is no ${unknown.join(', ')}. Name folders or files below src.`);
  const tests = folders.map((folder) => `tests${folder.slice('src'.length)}/**/*.test.ts`).join(',');
  const env = {
    STOWCALL_SHARED: resolve('../shared'),
    STOWCALL_MUTATION_TESTS: tests,
    ...process.env,
    STOWCALL_MUTATE: places
      .map((place) => (/\.ts(:[\d:-]+)?$/.test(place) ? place : `${folderOf(place)}/**/*.ts`))
      .join(','),
    STOWCALL_MUTATION_NAME: folders.map((folder) => folder.slice('src/'.length).replaceAll('/', '-')).join('+'),
  };
  say(`Breaking ${places.join(', ')}; asking ${env.STOWCALL_MUTATION_TESTS}`);
  const stryker = ['node_modules/@stryker-mutator/core/bin/stryker.js', 'run'];
  const { status } = spawnSync(process.execPath, [...stryker, ...words.filter((word) => word.startsWith('-'))], {
    env,
    stdio: 'inherit',
  });
  if (status !== 0) process.exitCode = 1;
});
