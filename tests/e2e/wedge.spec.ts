/** A keyboard-style scanner in real Chromium: trusted key strokes, a real field, a real button. */
import { expect, test, type CDPSession, type Page } from '@playwright/test';
import { serveHarness, type Harness } from './harness/serve-harness';
import type {} from './harness/main';

let harness: Harness;
test.beforeAll(async () => {
  harness = await serveHarness();
});
test.afterAll(() => harness.close());

async function open(page: Page, query = ''): Promise<CDPSession> {
  await page.goto(harness.url + query);
  await page.waitForFunction(() => document.title === 'ready');
  return page.context().newCDPSession(page);
}

/** Sends strokes as fast as the browser takes them, as a scanner does: none waits for the one before. */
async function scan(devtools: CDPSession, text: string): Promise<void> {
  const strokes = [...text].map((key) => ({ key, code: '', text: key }));
  const all = [...strokes, { key: 'Enter', code: 'Enter', text: '\r' }];
  await Promise.all(
    all.flatMap((stroke) => [
      devtools.send('Input.dispatchKeyEvent', { type: 'keyDown', ...stroke }),
      devtools.send('Input.dispatchKeyEvent', { type: 'keyUp', key: stroke.key, code: stroke.code }),
    ]),
  );
}

const seen = (page: Page) =>
  page.evaluate(() => ({
    scans: window.cameraHarness.scans.map(({ payload }) => payload),
    keys: [...window.cameraHarness.pageKeys],
    field: document.querySelector('input')?.value,
  }));

test('a scan types into no field, presses no button and is read', async ({ page }) => {
  const devtools = await open(page, '?gap=5000');
  await page.focus('#field');
  await scan(devtools, 'QHB-2104-017');
  await page.focus('#button');
  await scan(devtools, 'SC:stageComplete');
  await expect.poll(() => seen(page)).toEqual({ scans: ['QHB-2104-017', 'SC:stageComplete'], keys: [], field: '' });
});

test('typing arrives in the field, whole and in order, and Enter and blank still work the button', async ({ page }) => {
  await open(page);
  await page.focus('#field');
  await page.keyboard.type('Band 7, left', { delay: 90 });
  await expect.poll(async () => (await seen(page)).field).toBe('Band 7, left');
  await page.keyboard.press('Backspace');
  await page.keyboard.press('ControlOrMeta+z');
  await page.focus('#button');
  await page.keyboard.press('Enter');
  await page.keyboard.press(' ');
  const { scans, keys } = await seen(page);
  expect(scans).toEqual([]);
  expect(keys.filter((key) => key === 'click')).toHaveLength(2);
});
