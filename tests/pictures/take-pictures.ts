/** Takes the guide's pictures from the real, built page while packs of the demonstration are worked by hand. */
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from '@playwright/test';
import type { Procedure, Stage } from '../../src/domain/procedure';
import { firstClosingStage } from '../../src/domain/procedure';
import { serve } from '../../src/tools/serve.mjs';
import { badgeOf } from '../e2e/support/demo-badges';
import { newProfile, startChromium } from '../e2e/support/chromium-process';
import { demoLoft } from '../e2e/support/demo-loft';
import { Hands } from '../e2e/support/hands';
import { startPage } from '../e2e/support/start-page';
import { webpOf } from './webp';

const root = join(import.meta.dirname, '../..');
const folder = process.argv[2] ?? join(root, 'public/guide/pictures');
/** Longer than the kiosk's guard against a second touch that was meant for the step before. */
const AFTER_A_STEP_MS = 1_000;
const SIZE = { width: 1280, height: 800 };
/** Screens on which nothing can be said. */
const SILENT: ReadonlySet<string> = new Set(['start', 'records']);

const shots = new Map<string, Buffer>();

/** With the ear open, where it is going to be: a person looks at a screen when the voice has ended. */
async function take(page: Page, name: string): Promise<void> {
  const listening = page.locator('html[data-ear="listening"]');
  if (!SILENT.has(name)) await listening.waitFor({ state: 'attached', timeout: 60_000 });
  await page.waitForTimeout(700);
  shots.set(name, await page.screenshot());
}

function found<T>(value: T | null | undefined, what: string): T {
  if (value === null || value === undefined) throw new Error(`the demo loft has no ${what}`);
  return value;
}

const loft = demoLoft();
const procedure = found(
  loft.procedures.find(({ id }) => id === 'corrow-c3-cargo'),
  'cargo procedure',
);
const assembly = found(
  loft.assemblies.find(({ id }) => id === 'corrow-cargo-9'),
  'sound cargo assembly',
);
const tooOld = found(
  loft.assemblies.find(({ id }) => id === 'wendle-main-6'),
  'assembly beyond its life',
);
const packer = found(loft.people[0], 'rigger');
const inspector = found(loft.people[1], 'inspector');

await mkdir(folder, { recursive: true });
const server = await serve({ root: process.env['STOWCALL_DIST'] ?? root, port: 0 });
const chromium = await startChromium(await newProfile());
const page = await startPage(chromium.context, server.url, { speakingRate: 2 });
await page.setViewportSize(SIZE);
const hands = new Hands(page);

/** Half of the stows one by one, for a picture of the ledger in between; any other stage as it is. */
async function workAndTake(stage: Stage, of: Procedure): Promise<void> {
  if (stage.kind !== 'stow') {
    await take(page, `stage-${stage.kind}`);
    return hands.work(of, stage);
  }
  for (let stow = 0; stow < 3; stow += 1) await hands.press('stow');
  await take(page, 'stage-stow');
  await hands.enter('count', stage.plan.stows - 3);
  await hands.press('affirm');
  await hands.press('stageComplete');
}

async function startAndVoice(): Promise<void> {
  await page.locator('html[data-checks="works works works works works"]').waitFor({ state: 'attached' });
  await take(page, 'start');
  await page.getByRole('button', { name: 'Teach the kiosk your voice' }).click();
  await hands.expectScreen('enrol');
  await hands.scan(badgeOf(packer));
  await hands.press('affirm');
  await take(page, 'voice');
  await hands.press('finish');
  await hands.press('finish');
}

async function upToTheStages(): Promise<void> {
  await hands.scan(badgeOf(packer));
  for (const [index, { serial }] of assembly.components.entries()) {
    await hands.scan(serial);
    if (index === 0) await take(page, 'identify');
    await hands.press('affirm');
  }
  await take(page, 'inspection');
  await hands.lookOver(assembly);
  await take(page, 'check-in');
  for (const tool of procedure.tools) {
    await hands.enter('count', tool.count);
    await hands.press('affirm');
  }
}

async function stagesAndHolds(): Promise<void> {
  const wanted = new Set(['stow', 'measure']);
  let holds = 0;
  for (const stage of procedure.stages) {
    if (stage.id === firstClosingStage(procedure)?.id) await hands.account(procedure);
    await (wanted.delete(stage.kind) ? workAndTake(stage, procedure) : hands.work(procedure, stage));
    if (stage.hold === null) continue;
    holds += 1;
    if (holds === 1) await take(page, 'hold-waiting');
    await hands.scan(badgeOf(inspector));
    if (holds === 1) await take(page, 'hold-inspecting');
    await hands.press('releaseHold');
    await hands.press('affirm');
    if (holds === 1) {
      await hands.press('standBy');
      await take(page, 'standing-by');
      await hands.press('resume');
    }
  }
}

async function closeUp(): Promise<void> {
  await hands.account(procedure);
  await hands.scan(badgeOf(packer));
  await take(page, 'card');
  await hands.press('cardPlaced');
  await hands.scan(badgeOf(inspector));
  await hands.press('releaseHold');
  await hands.press('affirm');
  await take(page, 'record');
  await page.getByRole('button', { name: 'Back to the start' }).click();
  await hands.expectScreen('start');
}

/** An assembly that must not be packed, and its tag afterwards. */
async function blockedAndTagged(): Promise<void> {
  await hands.scan(badgeOf(packer));
  for (const { serial } of tooOld.components) {
    await hands.scan(serial);
    await hands.press('affirm');
  }
  await take(page, 'blocked');
  await hands.press('stopAndTag');
  await hands.press('affirm');
  await page.locator('.pad').getByRole('button', { name: 'Container' }).click();
  await page.waitForTimeout(AFTER_A_STEP_MS);
  await hands.press('affirm');
  await page.getByRole('button', { name: 'Back to the start' }).click();
  await hands.expectScreen('start');
}

async function tagsAndRecords(): Promise<void> {
  await page.getByRole('button', { name: 'Tags', exact: true }).click();
  await hands.expectScreen('tags');
  await take(page, 'tags');
  await hands.press('finish');
  await page.getByRole('button', { name: 'Records', exact: true }).click();
  await hands.expectScreen('records');
  await take(page, 'records');
}

/** The first printed sheet of commands. Badges are never put into a picture: whoever sees one can use it. */
async function commandCard(): Promise<void> {
  const sheet = await chromium.context.newPage();
  await sheet.setViewportSize({ width: 800, height: 560 });
  await sheet.goto(pathToFileURL(join(root, 'demo-data/labels/command-card.html')).href);
  shots.set('command-card', await sheet.screenshot());
  await sheet.close();
}

await startAndVoice();
await upToTheStages();
await stagesAndHolds();
await closeUp();
await blockedAndTagged();
await tagsAndRecords();
await commandCard();
const made = await webpOf(chromium.context, [...shots.values()]);
for (const [index, name] of [...shots.keys()].entries()) {
  await writeFile(join(folder, `${name}.webp`), made[index] ?? '');
}
await chromium.kill();
await server.close();
process.exit(0);
