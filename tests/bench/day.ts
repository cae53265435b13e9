/**
 * A day at the table in a few minutes: packs one after another to their records in one page of real Chromium, the loft's
 * clock moved on between them, and what the page holds in memory after each: `npm run bench:day`. JSON; flat means that
 * the slope after the first packs is not above its own noise. `STOWCALL_PACKS=100` for more packs than a day has.
 */
import { fileURLToPath } from 'node:url';
import type { CDPSession, Page } from '@playwright/test';
import { serve } from '../../src/tools/serve.mjs';
import { removeProfile } from '../e2e/ledger/browser-process';
import { nextScan, scanOn, shownBy, type PackPlan } from '../e2e/support/by-card';
import { newProfile, startChromium } from '../e2e/support/chromium-process';
import { demoLoft } from '../e2e/support/demo-loft';
import { demoPlan } from '../e2e/support/demo-plan';
import { readJournal } from '../e2e/support/read-journal';
import { holdClock, setClock } from '../e2e/support/settable-clock';
import { errorsOf, startPage } from '../e2e/support/start-page';
import { onStored } from '../e2e/support/stored-hook';
import type { Fact } from '../../src/domain/fact';
import { weighHeap, type HeapWeight } from './heap-weight';
import { slopeOf } from './slope';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const PACKS = Number(process.env['STOWCALL_PACKS'] ?? 24);
const HOURS = 24;
/** Code is compiled, caches fill and the voice has said everything once. */
const SETTLING = 3;

interface Weight {
  readonly heap: HeapWeight;
  readonly nodes: number;
  readonly listeners: number;
  /** Entries of the page's performance timeline, which no collection ever takes away. */
  readonly marks: number;
}

async function weigh(page: Page, devtools: CDPSession): Promise<Weight> {
  // Before the snapshot, which collects once more: what the first collection finalises is free only after the second.
  await devtools.send('HeapProfiler.collectGarbage');
  const heap = await weighHeap(devtools);
  const { nodes, jsEventListeners } = await devtools.send('Memory.getDOMCounters');
  const marks = await page.evaluate(() => performance.getEntries().length);
  return { heap, nodes, listeners: jsEventListeners, marks };
}

/** One pack from the badge to the record, and back to the start screen. */
async function packOnce(page: Page, plan: PackPlan, facts: Fact[]): Promise<void> {
  for (let scans = 0; scans < 500; scans += 1) {
    const payload = nextScan(plan, facts, await shownBy(page));
    if (payload === null) break;
    await scanOn(page, payload);
  }
  // By locators: a handle would hold the whole screen in memory.
  await page.locator('.card-proof img').waitFor({ timeout: 30_000 });
  await page.waitForTimeout(600);
  await page.getByRole('button', { name: 'Back to the start' }).click();
  await page.locator('html[data-screen="start"]').waitFor({ state: 'attached' });
}

async function day(): Promise<object> {
  const served = await serve({ root: ROOT, port: 0 });
  const profile = await newProfile();
  const chromium = await startChromium(profile);
  const plan = demoPlan(demoLoft());
  const weights: Weight[] = [];
  const facts: Fact[] = [];
  const from = Date.now();
  try {
    await holdClock(chromium.context);
    await onStored(chromium.context, (texts) => facts.push(...texts.map((text) => JSON.parse(text) as Fact)));
    const page = await startPage(chromium.context, served.url, { deny: ['audio', 'video'] });
    await page.locator('html[data-screen="start"]').waitFor({ state: 'attached' });
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null, null, { timeout: 60_000 });
    const devtools = await chromium.context.newCDPSession(page);
    for (let pack = 0; pack < PACKS; pack += 1) {
      await setClock(page, Math.round((pack * HOURS * 3_600_000) / (PACKS - 1)));
      facts.length = 0;
      await packOnce(page, plan, facts);
      weights.push(await weigh(page, devtools));
    }
    const journal = await readJournal(page);
    const [first, last] = [journal[0], journal.at(-1)];
    const hours =
      first === undefined || last === undefined ? 0 : (Date.parse(last.at) - Date.parse(first.at)) / 3_600_000;
    const settled = weights.slice(SETTLING);
    return {
      packs: journal.filter(({ body }) => body.kind === 'signed').length,
      hoursOfLoft: Math.round(hours * 10) / 10,
      seconds: Math.round((Date.now() - from) / 1_000),
      perPack: {
        code: slopeOf(settled.map(({ heap }) => heap.code)),
        buffers: slopeOf(settled.map(({ heap }) => heap.buffers)),
        browser: slopeOf(settled.map(({ heap }) => heap.browser)),
        objects: slopeOf(settled.map(({ heap }) => heap.objects)),
        nodes: slopeOf(settled.map(({ nodes }) => nodes)),
        listeners: slopeOf(settled.map(({ listeners }) => listeners)),
        marks: slopeOf(settled.map(({ marks }) => marks)),
      },
      weights,
      errors: errorsOf(page),
    };
  } finally {
    await chromium.kill();
    await removeProfile(profile);
    await served.close();
  }
}

console.log(JSON.stringify(await day(), null, 2));
