/** A real Chromium on a profile on the disk, for the store's benches; a private window would only write to memory. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Page } from '@playwright/test';
import { ensureChromium, sandboxFlags } from '../../src/tools/ensure.mjs';
import { servePage } from './serve-page';

const PAGE = fileURLToPath(new URL('./store-page.ts', import.meta.url));
const FLAGS = ['--disable-gpu', '--disable-background-networking', '--disable-sync', '--no-first-run'];

/** Runs `work` with a way to start the browser (again) on one new profile, which is removed afterwards. */
export async function withStoreBrowser<T>(
  work: (inPage: <R>(use: (page: Page) => Promise<R>) => Promise<R>) => Promise<T>,
): Promise<T> {
  const profile = await mkdtemp(join(tmpdir(), 'stowcall-bench-'));
  const served = await servePage(PAGE);
  const inPage = async <R>(use: (page: Page) => Promise<R>): Promise<R> => {
    const args = [...sandboxFlags(), ...FLAGS];
    const context = await chromium.launchPersistentContext(profile, { executablePath: ensureChromium(), args });
    try {
      const page = await context.newPage();
      await page.goto(served.url);
      await page.waitForFunction(() => document.title === 'ready');
      return await use(page);
    } finally {
      await context.close();
    }
  };
  try {
    return await work(inPage);
  } finally {
    await served.close();
    await rm(profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
  }
}
