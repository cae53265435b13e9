/**
 * Approximates power cuts: the profile lies on an ext4 file system in a file; while the page appends, the browser is
 * frozen and the file copied, as if the disk had lost its power at that instant. Then the copy is mounted and opened.
 * Unlike a kill, this loses everything that the system had not yet written to the disk. A virtual disk does not lie about
 * what it has written; a real one may.
 */
import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as later } from 'node:timers/promises';
import { promisify } from 'node:util';
import type { Head } from '../../../src/record/ledger';
import { inBrowser, startBrowser } from './browser-process';
import { faultsOf } from './kill-runs';

const run = promisify(execFile);
const JOURNAL = 'power-cuts';
const DISK_MB = 384;

export interface CutReport {
  readonly cuts: number;
  /** Appends whose answer reached this process before the cut. */
  readonly acknowledged: number;
  readonly stored: number;
  readonly faults: readonly string[];
}

/** `cuts` cuts, each on a disk of its own. */
export async function powerCuts(url: string, cuts: number, tell: (sofar: CutReport) => void): Promise<CutReport> {
  let report: CutReport = { cuts: 0, acknowledged: 0, stored: 0, faults: [] };
  for (let cut = 1; cut <= cuts; cut += 1) {
    const folder = await mkdtemp(join(tmpdir(), 'stowcall-cut-'));
    try {
      const { heads, stored, faults } = await cutOnce(url, folder);
      report = {
        cuts: cut,
        acknowledged: report.acknowledged + heads.length,
        stored: report.stored + stored,
        faults: [...report.faults, ...faults.map((fault) => `cut ${cut}: ${fault}`)],
      };
      tell(report);
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  }
  return report;
}

async function cutOnce(url: string, folder: string): Promise<{ heads: Head[]; stored: number; faults: string[] }> {
  const [disk, copy] = [join(folder, 'disk.img'), join(folder, 'copy.img')];
  await run('truncate', ['-s', `${DISK_MB}M`, disk]);
  await run('mkfs.ext4', ['-q', '-F', disk]);
  const heads = await mounted(disk, join(folder, 'before'), async (profile) => {
    const browser = await startBrowser(profile);
    try {
      const page = await browser.page(url);
      const seen: Head[] = [];
      await page.exposeBinding('acknowledge', (_, head: Head) => void seen.push(head));
      const appending = page.evaluate((name) => window.ledgerPage.appendForEver(name, 0), JOURNAL);
      appending.catch(() => undefined);
      await later(1_500 + Math.random() * 1_500);
      browser.freeze();
      const acknowledged = [...seen];
      await run('cp', ['--sparse=always', disk, copy]);
      return acknowledged;
    } finally {
      await browser.kill();
    }
  });
  return mounted(copy, join(folder, 'after'), async (profile) => {
    const seen = await inBrowser(profile, url, (page) =>
      page.evaluate((name) => window.ledgerPage.inspect(name, ['run-0']), JOURNAL),
    );
    return { heads, stored: seen.facts.length, faults: faultsOf(seen, heads) };
  });
}

/** The file system in the file, with a profile folder on it. Its own write-back comes only once a minute. */
async function mounted<T>(image: string, at: string, work: (profile: string) => Promise<T>): Promise<T> {
  await mkdir(at);
  await run('mount', ['-o', 'loop,commit=60', image, at]);
  try {
    const profile = join(at, 'profile');
    await mkdir(profile, { recursive: true });
    return await work(profile);
  } finally {
    await unmount(at);
  }
}

/** A killed browser may still be letting go of a file. */
async function unmount(at: string): Promise<void> {
  for (let tries = 0; ; tries += 1) {
    try {
      await run('umount', [at]);
      return;
    } catch (error) {
      if (tries === 20) throw error;
      await later(250);
    }
  }
}
