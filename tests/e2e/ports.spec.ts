/** The real ear and the real voice keep the promises of their ports, in Chromium, with real sound. */
import { expect, test, type BrowserContext, type Page } from '@playwright/test';
import { renderVoice } from '../audio/render-voice';
import { errorsOf, startPage } from './support/start-page';
import { serveHarness, type Served } from './voice-harness/serve-voice-harness';
import type {} from './voice-harness/main';

let served: Served;
test.beforeAll(async () => {
  served = await serveHarness('voice-harness');
});
test.afterAll(() => served.close());

async function ready(page: Page): Promise<void> {
  await page.waitForFunction(() => document.title === 'ready');
}

async function giveSpeech(context: BrowserContext): Promise<void> {
  await context.exposeFunction('renderSpeech', async (text: string) => {
    const { samples } = await renderVoice('slt', text);
    return Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength).toString('base64');
  });
}

test('the ear that learns voices', async ({ context }) => {
  await giveSpeech(context);
  const page = await startPage(context, served.url);
  await ready(page);
  expect(await page.evaluate(() => window.voiceHarness.enrolling())).toEqual([]);
  expect(errorsOf(page)).toEqual([]);
});

test('the ear', async ({ context }) => {
  await giveSpeech(context);
  const page = await startPage(context, served.url);
  await ready(page);
  expect(await page.evaluate(() => window.voiceHarness.hearing())).toEqual([]);
  expect(errorsOf(page)).toEqual([]);
});

test('the voice', async ({ context }) => {
  const page = await startPage(context, served.url);
  await ready(page);
  expect(await page.evaluate(() => window.voiceHarness.speaking())).toEqual([]);
  expect(errorsOf(page)).toEqual([]);
});
