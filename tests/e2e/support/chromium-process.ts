/** A Chromium that can be killed like a power cut: its own process group, its own profile, reopened at will. */
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Browser, type BrowserContext } from '@playwright/test';

export const CHROMIUM = process.env.STOWCALL_CHROMIUM ?? '/usr/bin/chromium';

export const CHROMIUM_ARGS: readonly string[] = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--autoplay-policy=no-user-gesture-required',
  '--mute-audio',
];

export interface RunningChromium {
  readonly browser: Browser;
  readonly context: BrowserContext;
  /** SIGKILL to the whole process group: nothing gets to tidy up. */
  kill(): Promise<void>;
}

/** A new, empty profile folder. */
export function newProfile(): Promise<string> {
  return mkdtemp(join(tmpdir(), 'stowcall-profile-'));
}

/** Starts Chromium headless on `profile` and connects to it. */
export async function startChromium(profile: string): Promise<RunningChromium> {
  const port = join(profile, 'DevToolsActivePort');
  await rm(port, { force: true });
  const child = spawn(
    CHROMIUM,
    [
      '--headless=new',
      '--remote-debugging-port=0',
      `--user-data-dir=${profile}`,
      '--window-size=1920,1080',
      ...CHROMIUM_ARGS,
      'about:blank',
    ],
    { detached: true, stdio: 'ignore' },
  );
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${await debuggingPort(port)}`);
  const context = browser.contexts()[0];
  if (context === undefined) throw new Error('Chromium came without a context');
  return { browser, context, kill: () => killGroup(child) };
}

async function debuggingPort(file: string): Promise<string> {
  for (let tries = 0; tries < 200; tries += 1) {
    const text = await readFile(file, 'utf8').catch(() => '');
    const port = text.split('\n')[0];
    if (port !== undefined && port !== '') return port;
    await new Promise((done) => setTimeout(done, 100));
  }
  throw new Error('Chromium did not open its debugging port within 20 s');
}

async function killGroup(child: ChildProcess): Promise<void> {
  if (child.pid === undefined) return;
  const gone = new Promise((done) => child.once('exit', done));
  process.kill(-child.pid, 'SIGKILL');
  await gone;
}
