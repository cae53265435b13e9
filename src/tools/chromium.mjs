/** Finds Chromium on this machine, and installs it where that is possible. */
import { execFileSync, spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { say, Stop } from './say.mjs';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome'];
/** A browser that takes longer than this to tell its version does not work. */
const VERSION_MS = 20_000;

/** The path of a Chromium, or null. `STOWCALL_CHROMIUM` names another one than the usual. @returns {string | null} */
export function findChromium() {
  const named = process.env['STOWCALL_CHROMIUM'];
  if (named !== undefined && named !== '') return isProgram(named) ? named : null;
  const folders = [...(process.env['PATH'] ?? '').split(delimiter), '/usr/bin', '/snap/bin', '/usr/local/bin'];
  const usual = NAMES.flatMap((name) => folders.filter((folder) => folder !== '').map((folder) => join(folder, name)));
  return [...usual, ...fetchedByPlaywright()].find(isProgram) ?? null;
}

/** Root cannot use Chromium's sandbox. */
export function sandboxFlags() {
  return isRoot() ? ['--no-sandbox'] : [];
}

/**
 * The path of a Chromium that starts; installed with the system's packages where there is none.
 * Stops with the command to run where that is not allowed.
 * @returns {string}
 */
export function ensureChromium() {
  const found = findChromium();
  if (found !== null && starts(found)) return found;
  if (process.env['STOWCALL_CHROMIUM']) {
    throw new Stop(`STOWCALL_CHROMIUM names ${process.env['STOWCALL_CHROMIUM']}, which does not start. Name another.`);
  }
  install();
  const installed = findChromium();
  if (installed !== null && starts(installed)) return installed;
  throw new Stop(
    'Chromium was installed but does not start. Try it by hand (chromium --version), or name another one with ' +
      'STOWCALL_CHROMIUM=/path/to/chromium.',
  );
}

function install() {
  if (!existsSync('/usr/bin/apt-get')) {
    throw new Stop('Chromium is missing. Install it with the packages of this system, then run this again.');
  }
  // Ubuntu's package is a pointer to a confined one, which may not start here and cannot read every folder.
  const ubuntu = osRelease().includes('ubuntu');
  if (ubuntu && installedByPlaywright()) return;
  const name = ubuntu ? 'chromium-browser' : 'chromium';
  const command = ['apt-get', 'install', '-y', '--no-install-recommends', name, 'fonts-dejavu-core'];
  const before = isRoot() ? [] : ['sudo', '-n'];
  if (!isRoot() && spawnSync('sudo', ['-n', 'true'], { stdio: 'ignore' }).status !== 0) {
    throw new Stop(`Chromium is missing. Run this, then try again: sudo apt-get update && sudo ${command.join(' ')}`);
  }
  say(`Chromium is missing: installing the package ${name}.`);
  if (attempt([...before, ...command])) return;
  say('Fetching the list of packages first.');
  attempt([...before, 'apt-get', 'update']);
  if (attempt([...before, ...command])) return;
  throw new Stop(`Chromium could not be installed. Run this by hand and read what it says: ${command.join(' ')}`);
}

/** The test runner's own installer, which is there once the packages are. */
function installedByPlaywright() {
  const installer = fileURLToPath(new URL('../../node_modules/@playwright/test/cli.js', import.meta.url));
  if (!existsSync(installer)) return false;
  say("Chromium is missing: fetching the test runner's own.");
  const withSystem = isRoot() ? ['--with-deps'] : [];
  if (!attempt([process.execPath, installer, 'install', ...withSystem, 'chromium'])) return false;
  return fetchedByPlaywright().some((file) => isProgram(file) && starts(file));
}

/** @param {readonly string[]} command */
function attempt([program = '', ...rest]) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const { status } = spawnSync(program, rest, { stdio: ['ignore', 'ignore', 'inherit'], env });
  return status === 0;
}

/** @param {string} file */
function starts(file) {
  try {
    execFileSync(file, ['--version', ...sandboxFlags()], { stdio: 'ignore', timeout: VERSION_MS });
    return true;
  } catch {
    return false;
  }
}

/** @param {string} file */
function isProgram(file) {
  try {
    accessSync(file, constants.X_OK);
    return statSync(file).isFile();
  } catch {
    return false;
  }
}

function isRoot() {
  return process.getuid?.() === 0;
}

function osRelease() {
  return existsSync('/etc/os-release') ? readFileSync('/etc/os-release', 'utf8').toLowerCase() : '';
}

/** Browsers that the test runner's own installer has put into the home folder. */
function fetchedByPlaywright() {
  const cache = join(homedir(), '.cache/ms-playwright');
  if (!existsSync(cache)) return [];
  return readdirSync(cache)
    .filter((name) => /^chromium-\d+$/.test(name))
    .sort()
    .reverse()
    .flatMap((name) => ['chrome-linux/chrome', 'chrome-linux64/chrome'].map((inside) => join(cache, name, inside)));
}
