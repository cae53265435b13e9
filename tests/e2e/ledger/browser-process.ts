/** The browser of the ledger's tests: started hundreds of times in a row on one profile. */
import { rm } from 'node:fs/promises';
import type { Browser, Page } from '@playwright/test';
import { startChromium } from '../support/chromium-process';

export { newProfile } from '../support/chromium-process';

export interface BrowserProcess {
  /** A page of the ledger's tests, ready to be driven. */
  page(url: string): Promise<Page>;
  /** SIGKILL to the whole process group; a second call does nothing. */
  kill(): Promise<void>;
  /** Stops it as it is, for a picture of the disk. */
  freeze(): void;
}

/** Removes a profile folder; a killed browser may still be letting go of a file. */
export async function removeProfile(profile: string): Promise<void> {
  await rm(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
}

/** Starts Chromium headless on the profile. */
export async function startBrowser(profile: string): Promise<BrowserProcess> {
  const { browser, kill, freeze } = await startChromium(profile);
  return { page: (url) => openPage(browser, url), kill, freeze };
}

async function openPage(browser: Browser, url: string): Promise<Page> {
  const context = browser.contexts()[0];
  if (context === undefined) throw new Error('Chromium came without a context');
  const page = await context.newPage();
  await page.goto(url);
  await page.waitForFunction(() => document.title === 'ready');
  return page;
}

/** One page on the profile, and then the browser is killed. */
export async function inBrowser<T>(profile: string, url: string, work: (page: Page) => Promise<T>): Promise<T> {
  const browser = await startBrowser(profile);
  try {
    return await work(await browser.page(url));
  } finally {
    await browser.kill();
  }
}
