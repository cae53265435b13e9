/** Opens the kiosk with the stub of microphone and camera in place before its own scripts run. */
import type { BrowserContext, Page } from '@playwright/test';
import { installTableStub } from './table-stub';

export interface StartOptions {
  /** Devices whose permission is denied. */
  readonly deny?: readonly ('audio' | 'video')[];
  readonly path?: string;
}

/** Any error of the page fails the test that asks for `errorsOf`. */
const errors = new WeakMap<Page, string[]>();

export async function startPage(context: BrowserContext, baseURL: string, options: StartOptions = {}): Promise<Page> {
  const page = await context.newPage();
  const seen: string[] = [];
  errors.set(page, seen);
  page.on('pageerror', (error) => seen.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') seen.push(message.text());
  });
  await page.addInitScript(installTableStub, { deny: options.deny ?? [] });
  await page.goto(new URL(options.path ?? '/', baseURL).href);
  return page;
}

/** Page errors and error messages on the console so far. */
export function errorsOf(page: Page): readonly string[] {
  return errors.get(page) ?? [];
}
