/**
 * Speed of the built kiosk in real Chromium, as JSON: `npm run bench:kiosk`. Nothing here is a test; figures depend on
 * the machine, which is why its cores and load are told beside them.
 */
import { cpus, loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import { serve } from '../../src/tools/serve.mjs';
import { benchAppend, percentile } from './append';
import { benchRecogniser } from './recogniser';
import { PAUSE_MS } from '@stowcall/web-speech/core';
import { renderVoice } from '../audio/render-voice';
import { labelPng } from '../scan/pictures';
import { newProfile, startChromium } from '../e2e/support/chromium-process';
import { demoLoft } from '../e2e/support/demo-loft';
import { badgeOf } from '../e2e/support/demo-badges';
import { Rigger } from '../e2e/support/rigger';
import { startPage } from '../e2e/support/start-page';

const COMMANDS = 30;
const LABELS = 30;
const STARTS = 5;
const READY = 'html[data-checks="works works works works works"]';
const ROOT = fileURLToPath(new URL('../..', import.meta.url));

interface Spread {
  readonly n: number;
  readonly p50: number;
  readonly p95: number;
}

function spread(times: readonly number[]): Spread {
  const round = (ms: number): number => Math.round(ms * 10) / 10;
  return { n: times.length, p50: round(percentile(times, 50)), p95: round(percentile(times, 95)) };
}

/** Page time of the first mark of this name after `since`. */
async function markAfter(page: Page, name: string, since: number): Promise<number> {
  const handle = await page.waitForFunction(
    ([mark, from]) =>
      performance.getEntriesByName(`stowcall:${mark}`).find((entry) => entry.startTime > from)?.startTime,
    [name, since] as const,
    { timeout: 20_000, polling: 20 },
  );
  return Number(await handle.jsonValue());
}

/** Milliseconds of near silence at the end of a rendering. */
function tailMs(samples: Float32Array): number {
  let last = samples.length - 1;
  while (last > 0 && Math.abs(samples[last] ?? 0) < 0.005) last -= 1;
  return ((samples.length - 1 - last) / 16_000) * 1_000;
}

/** Last sample of the command to the screen's change, less the pause that ends a sentence. The change is stored first. */
async function commandTimes(page: Page): Promise<{ times: number[]; unheard: number }> {
  const rigger = new Rigger(page);
  const times: number[] = [];
  let unheard = 0;
  for (let turn = 0; turn < COMMANDS; turn += 1) {
    await rigger.untilListening();
    const { samples } = await renderVoice(
      turn % 4 < 2 ? 'slt' : 'kal16',
      turn % 2 === 0 ? 'stand by' : 'resume packing',
    );
    const ended = (await rigger.sound(samples)) - tailMs(samples);
    try {
      times.push((await markAfter(page, 'screen', ended)) - ended - PAUSE_MS);
    } catch {
      unheard += 1;
      turn -= 1;
      if (unheard > COMMANDS) throw new Error('the recogniser hears nothing');
    }
  }
  return { times, unheard };
}

/** First picture of a label held still to its accepted identity. */
async function labelTimes(page: Page): Promise<number[]> {
  const times: number[] = [];
  const symbologies = ['code128', 'dataMatrix', 'qr'] as const;
  for (let turn = 0; turn < LABELS; turn += 1) {
    const symbology = symbologies[turn % symbologies.length] ?? 'qr';
    const png = await labelPng({
      payload: `BENCH-${1000 + turn}-LABEL`,
      symbology,
      scale: 3,
      rotate: turn * 12,
      seed: turn,
    });
    const data = `data:image/png;base64,${Buffer.from(png).toString('base64')}`;
    const shown = await page.evaluate((picture) => window.tableStub.show(picture), data);
    times.push((await markAfter(page, 'sighted', shown)) - shown);
    await page.evaluate(() => window.tableStub.show(null));
    await page.waitForTimeout(1_500);
  }
  return times;
}

/** Navigation to everything being ready, from the service worker, with the server gone. */
async function startTimes(page: Page): Promise<number[]> {
  const times: number[] = [];
  for (let turn = 0; turn < STARTS; turn += 1) {
    await page.reload();
    times.push(await markAfter(page, 'ready', 0));
  }
  return times;
}

async function main(): Promise<void> {
  const server = await serve({ root: ROOT, port: 0 });
  const profile = await newProfile();
  const chromium = await startChromium(profile);
  const page = await startPage(chromium.context, server.url, { speakingRate: 2 });
  await page.locator(READY).waitFor({ state: 'attached', timeout: 60_000 });
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  const labels = await labelTimes(page);
  await server.close();
  const starts = await startTimes(page);
  const rigger = new Rigger(page);
  await page.locator(READY).waitFor({ state: 'attached', timeout: 60_000 });
  const packer = demoLoft().people.find(({ id }) => id === 'hazel-orrin');
  if (packer === undefined) throw new Error('the demo loft has no rigger');
  await rigger.show(badgeOf(packer), 'qr');
  const commands = await commandTimes(page);
  await chromium.kill();
  const figures = {
    machine: {
      cores: cpus().length,
      load: loadavg().map((load) => Math.round(load * 100) / 100),
      node: process.version,
    },
    commandToScreenMs: { ...spread(commands.times), unheard: commands.unheard, beyondPauseMs: PAUSE_MS, target: 300 },
    recogniser: { ...(await benchRecogniser()), target: { realTimeFactor: 0.15 } },
    startToReadyMs: { ...spread(starts), target: 3_000 },
    labelToIdentityMs: { ...spread(labels), target: 600 },
    appendMs: { ...(await benchAppend()), target: 15 },
  };
  console.log(JSON.stringify(figures, null, 2));
}

await main();
process.exit(0);
