/** Makes sure of what the kiosk needs before it can start: Node, packages, acoustic model, built page. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { say, Stop } from './say.mjs';

export { ensureChromium, sandboxFlags } from './chromium.mjs';

/** @typedef {{ version?: string, integrity?: string, optional?: boolean, link?: boolean }} Installed */

const NODE_MIN = [20, 19];
/** Everything that the built page is made of; a change in any of it makes a new build. */
const SOURCES = ['src', 'grammars', 'demo-data', 'public', 'index.html', 'vite.config.ts', 'tsconfig.json'];

/** Stops where Node is older than the tools can work with. @param {string} version for example `20.19.0` */
export function ensureNode(version = process.versions.node) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  const [least = 0, leastMinor = 0] = NODE_MIN;
  if (major > least || (major === least && minor >= leastMinor)) return;
  throw new Stop(
    `This is Node ${version}; Stowcall needs Node ${NODE_MIN.join('.')} or later. Install that, then retry.`,
  );
}

/** Installs the packages of the lock file where they are missing or others. @param {string} root */
export function ensureDependencies(root) {
  const why = whatIsNotInstalled(root);
  if (why === null) return;
  say(`Installing packages (${why}). This takes a minute.`);
  const { status } = spawnSync('npm', ['ci', '--no-audit', '--no-fund'], { cwd: root, stdio: 'inherit' });
  if (status !== 0) {
    throw new Stop('The packages could not be installed. Is there a connection to the package registry? Then retry.');
  }
}

/**
 * The first difference between the lock file and what npm has written down of its last finished install; null for
 * none. Better than a mark of our own: it is also true after an install by hand, and after one that was cut off.
 * @param {string} root
 * @returns {string | null}
 */
export function whatIsNotInstalled(root) {
  const written = join(root, 'node_modules/.package-lock.json');
  if (!existsSync(written)) return 'there are none yet';
  const wanted = packagesOf(join(root, 'package-lock.json'));
  const installed = packagesOf(written);
  for (const [path, { version, integrity, optional, link }] of Object.entries(wanted)) {
    if (path === '' || link) continue;
    const have = installed[path];
    // An optional package may be for another machine than this.
    if (have === undefined && optional) continue;
    if (have === undefined) return `${path.replace('node_modules/', '')} is missing`;
    if (have.version !== version || have.integrity !== integrity) return `${path} is not version ${version}`;
  }
  return null;
}

/** @param {string} file @returns {Record<string, Installed>} */
function packagesOf(file) {
  return JSON.parse(readFileSync(file, 'utf8')).packages ?? {};
}

/** Fetches the acoustic model where it is missing. @param {string} root */
export async function ensureModel(root) {
  if (!existsSync(join(root, '.stowcall/model'))) say('Fetching the acoustic model (about 30 MB, once).');
  // Not at the top: it reads archives with a package, and on a fresh clone there is none yet.
  const { fetchModel } = await import('./fetch-model.mjs');
  return fetchModel(root);
}

/** Builds the page where its sources have changed since the last build. @param {string} root */
export function ensureBuild(root) {
  const stamp = join(root, '.stowcall/build.json');
  const source = hashOf(root, [...SOURCES, 'package-lock.json', '.stowcall/model']);
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === stampOf(root, source)) return;
  say('Building the page.');
  const vite = join(root, 'node_modules/vite/bin/vite.js');
  const built = spawnSync(process.execPath, [vite, 'build', '--logLevel', 'warn'], { cwd: root, stdio: 'inherit' });
  if (built.status !== 0) throw new Stop('The page could not be built; the lines above say why.');
  mkdirSync(join(root, '.stowcall'), { recursive: true });
  writeFileSync(stamp, stampOf(root, source));
}

/**
 * The service worker lists the hash of every built file, so it stands for the whole of `dist`.
 * @param {string} root @param {string} source
 */
function stampOf(root, source) {
  return JSON.stringify({ source, built: hashOf(root, ['dist/sw.js', 'dist/index.html']) });
}

/**
 * Hash over names and bytes of all files below `paths`; a missing path counts as such.
 * @param {string} root @param {readonly string[]} paths
 */
export function hashOf(root, paths) {
  const hash = createHash('sha256');
  for (const path of paths) {
    for (const file of filesBelow(root, path)) {
      const bytes = readFileSync(join(root, file));
      hash.update(`${file}\0${bytes.length}\0`).update(bytes);
    }
    hash.update(`${path}\0end\0`);
  }
  return hash.digest('hex');
}

/** @param {string} root @param {string} path @returns {string[]} */
function filesBelow(root, path) {
  if (!existsSync(join(root, path))) return [];
  try {
    return readdirSync(join(root, path), { withFileTypes: true })
      .map(({ name }) => name)
      .sort()
      .flatMap((name) => filesBelow(root, `${path}/${name}`));
  } catch {
    // Not a folder.
    return [path];
  }
}
