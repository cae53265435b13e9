/** A Chromium that can be killed like a power cut: its own process group, its own profile, reopened at will. */
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as later } from 'node:timers/promises';
import { chromium, type Browser, type BrowserContext } from '@playwright/test';
import { findChromium, sandboxFlags } from '../../../src/tools/chromium.mjs';

export const CHROMIUM = findChromium() ?? 'chromium';

export const CHROMIUM_ARGS: readonly string[] = [
  ...sandboxFlags(),
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
  /** SIGKILL to the whole process group: nothing gets to tidy up. A second call does nothing. */
  kill(): Promise<void>;
  /** SIGSTOP to the whole process group: not an instruction more is carried out. */
  freeze(): void;
  /** SIGCONT: it goes on where it was stopped. */
  thaw(): void;
}

const STARTS = 3;
const CONNECT_TRIES = 200;

/** A new, empty profile folder. */
export function newProfile(): Promise<string> {
  return mkdtemp(join(tmpdir(), 'stowcall-profile-'));
}

/** Starts Chromium headless on `profile` and connects to it. Starting is tried again, and nothing is left running. */
export async function startChromium(profile: string): Promise<RunningChromium> {
  for (let start = 1; ; start += 1) {
    const child = await spawnOn(profile);
    try {
      const browser = await connect(child, profile);
      const context = browser.contexts()[0];
      if (context === undefined) throw new Error('Chromium came without a context');
      const kill = (): Promise<void> => killGroup(child);
      return {
        browser,
        context,
        kill,
        freeze: () => signalGroup(child, 'SIGSTOP'),
        thaw: () => signalGroup(child, 'SIGCONT'),
      };
    } catch (error) {
      await killGroup(child);
      if (start === STARTS) throw error;
    }
  }
}

async function spawnOn(profile: string): Promise<ChildProcess> {
  await rm(join(profile, 'DevToolsActivePort'), { force: true });
  const own = ['--headless=new', '--remote-debugging-port=0', `--user-data-dir=${profile}`, '--window-size=1920,1080'];
  return spawn(CHROMIUM, [...own, ...CHROMIUM_ARGS, 'about:blank'], { detached: true, stdio: 'ignore' });
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

function signalGroup({ pid }: ChildProcess, signal: 'SIGSTOP' | 'SIGCONT'): void {
  if (pid !== undefined) process.kill(-pid, signal);
}

async function killGroup(child: ChildProcess): Promise<void> {
  if (child.pid === undefined || child.exitCode !== null || child.signalCode !== null) return;
  const gone = new Promise((done) => child.once('exit', done));
  process.kill(-child.pid, 'SIGKILL');
  await gone;
}
