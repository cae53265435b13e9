/** The built speech package in place of the browser's Web Speech API: every row of the table of published assertions. */
import { chromium, expect, test } from '@playwright/test';
import { renderVoice } from '../audio/render-voice';
import { CHROMIUM, CHROMIUM_ARGS } from './support/chromium-process';
import { errorsOf, startPage } from './support/start-page';
import { serveHarness } from './voice-harness/serve-voice-harness';
import type {} from './speech-api/main';

const NEEDS_TOUCH = [
  ...CHROMIUM_ARGS.filter((arg) => !arg.startsWith('--autoplay-policy')),
  '--autoplay-policy=document-user-activation-required',
  // Sandboxed frames in the page's own process, so that what they load can be answered by the test.
  '--disable-features=IsolateSandboxedIframes',
];

// A trace looks into the page as it goes, and each look counts as a touch.
test.use({ trace: 'off' });

test('no row of what the public tests of the Web Speech API assert fails', async () => {
  const [served, browser] = await Promise.all([
    serveHarness('speech-api'),
    // Sound needs a touch here, as it does on a page that no kiosk has set up.
    chromium.launch({ executablePath: CHROMIUM, args: NEEDS_TOUCH }),
  ]);
  try {
    const context = await browser.newContext({ permissions: ['microphone'] });
    await context.exposeFunction('renderSpeech', async (text: string) => {
      const { samples } = await renderVoice('slt', text);
      return Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength).toString('base64');
    });
    // A frame of another origin may load the package's files here, which the kiosk's own headers forbid.
    await context.route('**/assets/*', async (route) => {
      const response = await route.fetch();
      const shared = { 'access-control-allow-origin': '*', 'cross-origin-resource-policy': 'cross-origin' };
      await route.fulfill({ response, headers: { ...response.headers(), ...shared } });
    });
    const ready = context.waitForEvent('console', (message) => message.text() === 'ready');
    const page = await startPage(context, served.url);
    await ready;
    expect(await page.evaluate(() => window.speechApi.rows())).toBeGreaterThan(120);
    expect(await page.evaluate(() => window.speechApi.beforeTouch)).toEqual([]);
    await page.mouse.click(10, 10);
    expect(await page.evaluate(() => window.speechApi.afterTouch())).toEqual([]);
    expect(errorsOf(page)).toEqual([]);
  } finally {
    await browser.close();
    await served.close();
  }
});
