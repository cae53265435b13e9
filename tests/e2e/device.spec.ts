/** The browser's own media devices, not the tests' stand-ins: permission, constraints and streams of the real path. */
import { mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, expect, test } from '@playwright/test';
import { makeWav, renderVoice } from '../audio/render-voice';
import { CHROMIUM, CHROMIUM_ARGS } from './support/chromium-process';

test('the self-check passes on a real device path, and speech from it is heard', async ({ baseURL }) => {
  if (!baseURL) throw new Error('the kiosk is not served');
  const folder = await mkdtemp(join(tmpdir(), 'stowcall-device-'));
  const { samples, sampleRate } = await renderVoice('slt', 'next stage');
  const padded = new Float32Array(samples.length + 3 * sampleRate);
  padded.set(samples, sampleRate);
  const wav = join(folder, 'next.wav');
  await writeFile(wav, makeWav(padded, sampleRate));
  const browser = await chromium.launch({
    executablePath: CHROMIUM,
    args: [
      ...CHROMIUM_ARGS,
      '--use-fake-device-for-media-stream',
      // Played in a loop: said again and again, as long as the ear is open.
      `--use-file-for-fake-audio-capture=${wav}`,
    ],
  });
  const context = await browser.newContext({ permissions: ['camera', 'microphone'] });
  const page = await context.newPage();
  await page.goto(baseURL);
  await expect(page.locator('html[data-checks="works works works works works"]')).toBeAttached({ timeout: 60_000 });
  await page.getByRole('button', { name: /Corrow C3/ }).click();
  const prompt = (): Promise<string | null> => page.locator('html').getAttribute('data-prompt');
  await expect(page.locator('html[data-screen="rehearsal"]')).toBeAttached();
  const first = await prompt();
  await expect.poll(prompt, { timeout: 60_000 }).not.toBe(first);
  await browser.close();
});

test('of two cameras the other is taken when asked for, and again after a restart', async ({ baseURL }) => {
  if (!baseURL) throw new Error('the kiosk is not served');
  const browser = await chromium.launch({
    executablePath: CHROMIUM,
    args: [...CHROMIUM_ARGS, '--use-fake-device-for-media-stream=device-count=2'],
  });
  const context = await browser.newContext({ permissions: ['camera', 'microphone'] });
  const page = await context.newPage();
  const used = (): Promise<string> => page.locator('.part-choice span').innerText();
  const isReady = () =>
    expect(page.locator('html[data-checks="works works works works works"]')).toBeAttached({ timeout: 60_000 });
  await page.goto(baseURL);
  await isReady();
  await expect(page.getByRole('button', { name: 'Use another camera' })).toBeVisible();
  const first = await used();
  expect(first).toMatch(/fake/i);
  await page.getByRole('button', { name: 'Use another camera' }).click();
  await expect.poll(used).not.toBe(first);
  const second = await used();
  await isReady();
  await page.reload();
  await isReady();
  await expect.poll(used).toBe(second);
  await browser.close();
});
