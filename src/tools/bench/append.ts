/** How long one fact takes until it is durably stored, in real Chromium on a profile on the disk. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from '@playwright/test';
import { ensureChromium, sandboxFlags } from '../ensure.mjs';
import { servePage } from './serve-page';

export interface AppendFigures {
  readonly n: number;
  /** Milliseconds from the call to the answer. */
  readonly p50: number;
  readonly p95: number;
  readonly p99: number;
}

const APPENDS = 1_000;
const WARM_UP = 50;
const PAGE = fileURLToPath(new URL('./append-page.ts', import.meta.url));

/** Measures strict appends of one fact each, back to back. A private window would only write to memory. */
export async function benchAppend(): Promise<AppendFigures> {
  const profile = await mkdtemp(join(tmpdir(), 'stowcall-append-'));
  const served = await servePage(PAGE);
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: ensureChromium(),
    args: [...sandboxFlags(), '--disable-gpu', '--disable-background-networking', '--disable-sync', '--no-first-run'],
  });
  try {
    const page = await context.newPage();
    await page.goto(served.url);
    await page.waitForFunction(() => document.title === 'ready');
    const times = await page.evaluate(([n, warmUp]) => window.timeAppends(n, warmUp), [APPENDS, WARM_UP] as const);
    return { n: times.length, p50: percentile(times, 50), p95: percentile(times, 95), p99: percentile(times, 99) };
  } finally {
    await context.close();
    await served.close();
    await rm(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  }
}

/** Nearest rank: the smallest time that at least `percent` of all do not exceed. */
export function percentile(times: readonly number[], percent: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  const value = sorted[Math.max(0, Math.ceil((percent / 100) * sorted.length) - 1)];
  if (value === undefined) throw new Error('There is no percentile of no times');
  return Math.round(value * 100) / 100;
}
