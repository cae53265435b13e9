/** A Chromium started hundreds of times in a row on one profile: starting is tried again, and nothing is left running. */
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as later } from 'node:timers/promises';
import { chromium, type Browser, type Page } from '@playwright/test';
import { findChromium, sandboxFlags } from '../../../src/tools/ensure.mjs';

export interface BrowserProcess {
  /** A page of the ledger's tests, ready to be driven. */
  page(url: string): Promise<Page>;
  /** SIGKILL to the whole process group; a second call does nothing. */
  kill(): Promise<void>;
}

const STARTS = 3;
const CONNECT_TRIES = 100;

/** A new, empty profile folder. */
export function newProfile(): Promise<string> {
  return mkdtemp(join(tmpdir(), 'stowcall-ledger-'));
}

/** Removes a profile folder; a killed browser may still be letting go of a file. */
export async function removeProfile(profile: string): Promise<void> {
  await rm(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
}

/** Starts Chromium headless on the profile. */
export async function startBrowser(profile: string): Promise<BrowserProcess> {
  for (let start = 1; ; start += 1) {
    const child = await spawnOn(profile);
    try {
      const browser = await connect(child, profile);
      return { page: (url) => openPage(browser, url), kill: () => killGroup(child) };
    } catch (error) {
      await killGroup(child);
      if (start === STARTS) throw error;
    }
  }
}

async function spawnOn(profile: string): Promise<ChildProcess> {
  await rm(join(profile, 'DevToolsActivePort'), { force: true });
  const args = [
    '--headless=new',
    '--remote-debugging-port=0',
    `--user-data-dir=${profile}`,
    ...sandboxFlags(),
    '--disable-gpu',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    'about:blank',
  ];
  return spawn(findChromium() ?? 'chromium', args, { detached: true, stdio: 'ignore' });
}

async function connect(child: ChildProcess, profile: string): Promise<Browser> {
  let last: unknown = 'it did not open its debugging port';
  for (let tries = 0; tries < CONNECT_TRIES && child.exitCode === null; tries += 1) {
    const text = await readFile(join(profile, 'DevToolsActivePort'), 'utf8').catch(() => '');
    const [port = '', path = ''] = text.split('\n');
    if (port !== '' && path !== '') {
      try {
        return await chromium.connectOverCDP(`ws://127.0.0.1:${port}${path}`);
      } catch (error) {
        last = error;
      }
    }
    await later(100);
  }
  throw new Error(`Chromium cannot be driven: ${String(last)}`);
}

async function openPage(browser: Browser, url: string): Promise<Page> {
  const context = browser.contexts()[0];
  if (context === undefined) throw new Error('Chromium came without a context');
  const page = await context.newPage();
  await page.goto(url);
  await page.waitForFunction(() => document.title === 'ready');
  return page;
}

async function killGroup(child: ChildProcess): Promise<void> {
  if (child.pid === undefined || child.exitCode !== null || child.signalCode !== null) return;
  const gone = new Promise((done) => child.once('exit', done));
  process.kill(-child.pid, 'SIGKILL');
  await gone;
}
