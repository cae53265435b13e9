/** `npm run kiosk`: the page full screen in Chromium, with microphone and camera allowed for its address alone. */
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureBuild, ensureChromium, ensureDependencies, ensureModel, ensureNode, sandboxFlags } from './ensure.mjs';
import { run, say } from './say.mjs';
import { isServed, portWanted, serve } from './serve.mjs';

/** Chromium's own number for "allow" in its content settings. */
const ALLOW = 1;
const DEVICES = ['media_stream_mic', 'media_stream_camera'];

/** The browser profile of the kiosk: its journal lies in it, so it is kept apart from anybody's own browser. */
export function profileFolder() {
  return process.env['STOWCALL_PROFILE'] || join(homedir(), '.local/share/stowcall');
}

/**
 * Allows microphone and camera for one address in this profile, and takes back what was allowed to any other.
 * Chromium must not be running on it.
 * @param {string} folder the profile folder, made where it is missing
 * @param {string} url the page's address
 */
export function allowDevices(folder, url) {
  const file = join(folder, 'Default/Preferences');
  mkdirSync(join(folder, 'Default'), { recursive: true });
  const preferences = existsSync(file) ? objectIn(JSON.parse(readFileSync(file, 'utf8'))) : {};
  const profile = objectIn(preferences['profile']);
  const settings = objectIn(profile['content_settings']);
  const exceptions = objectIn(settings['exceptions']);
  for (const device of DEVICES) {
    exceptions[device] = { [`${new URL(url).origin},*`]: { last_modified: '0', setting: ALLOW } };
  }
  // A power cut is no reason to ask whether to restore pages: the kiosk itself resumes the pack.
  const whole = { ...profile, exit_type: 'Normal', content_settings: { ...settings, exceptions } };
  writeFileSync(`${file}.new`, JSON.stringify({ ...preferences, profile: whole }));
  renameSync(`${file}.new`, file);
}

/** @param {unknown} value @returns {Record<string, unknown>} */
function objectIn(value) {
  return typeof value === 'object' && value !== null ? /** @type {Record<string, unknown>} */ (value) : {};
}

/**
 * Chromium's flags for the kiosk. None of them allows devices or sound to other addresses.
 * @param {string} folder @param {string} url
 */
export function kioskFlags(folder, url) {
  return [
    `--user-data-dir=${folder}`,
    '--kiosk',
    `--app=${url}`,
    // The kiosk speaks first: nobody has touched the page yet.
    '--autoplay-policy=no-user-gesture-required',
    '--no-first-run',
    '--no-default-browser-check',
    '--hide-crash-restore-bubble',
    '--disable-pinch',
    '--overscroll-history-navigation=0',
    '--password-store=basic',
    '--disable-sync',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-features=Translate',
    ...sandboxFlags(),
  ];
}

/** @param {string} root */
async function open(root) {
  ensureNode();
  ensureDependencies(root);
  await ensureModel(root);
  ensureBuild(root);
  const chromium = ensureChromium();
  const port = portWanted();
  const running = port !== 0 && (await isServed(port));
  // Not at the next free port: the packs that were begun belong to this one.
  const serving = running ? null : await serve({ root, port });
  const url = serving?.url ?? `http://localhost:${port}/`;
  const folder = profileFolder();
  allowDevices(folder, url);
  if (sandboxFlags().length > 0) say('Running as root, where Chromium has no sandbox: better use another user.');
  say(`Stowcall is at ${url}, full screen; Alt+F4 closes it.`);
  const browser = spawn(chromium, kioskFlags(folder, url), { stdio: 'ignore' });
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) process.on(signal, () => browser.kill(signal));
  const code = await new Promise((done, failed) => browser.on('exit', done).on('error', failed));
  await serving?.close();
  if (code !== 0 && code !== null) {
    say(`Chromium ended with code ${code}. Is there a screen (DISPLAY or WAYLAND_DISPLAY), and no other kiosk open?`);
    process.exitCode = 1;
  }
}

if (process.argv[1] !== undefined && fileURLToPath(import.meta.url) === resolve(process.argv[1])) {
  await run(() => open(resolve(fileURLToPath(import.meta.url), '../../..')));
}
