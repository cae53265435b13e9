/** Takes the README's pictures from the real, built page while a pack of the demo's cargo canopy is worked by hand. */
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { firstClosingStage } from '../../src/domain/procedure';
import { serve } from '../../src/tools/serve.mjs';
import { newProfile, startChromium } from '../e2e/support/chromium-process';
import { demoLoft } from '../e2e/support/demo-loft';
import { Hands } from '../e2e/support/hands';
import { badgeOf } from '../e2e/support/demo-badges';
import { startPage } from '../e2e/support/start-page';

const root = join(import.meta.dirname, '../..');
const folder = process.argv[2] ?? join(root, 'demo-data/pictures');
/** Screens on which nothing can be said. */
const SILENT: ReadonlySet<string> = new Set(['start']);
const [width, height] = (process.argv[3] ?? '1280x800').split('x').map(Number);

/** With the ear open, where it is going to be: a person looks at a screen when the voice has ended. */
async function take(page: Page, name: string): Promise<void> {
  const listening = page.locator('html[data-ear="listening"]');
  if (!SILENT.has(name)) await listening.waitFor({ state: 'attached', timeout: 60_000 });
  await page.waitForTimeout(700);
  await page.screenshot({ path: join(folder, `${name}.png`) });
}

await mkdir(folder, { recursive: true });
const server = await serve({ root: process.env['STOWCALL_DIST'] ?? root, port: 0 });
const chromium = await startChromium(await newProfile());
const page = await startPage(chromium.context, server.url, { speakingRate: 2 });
await page.setViewportSize({ width: width ?? 1280, height: height ?? 800 });
const hands = new Hands(page);
const loft = demoLoft();
const procedure = loft.procedures.find(({ id }) => id === 'corrow-c3-cargo');
const assembly = loft.assemblies.find(({ id }) => id === 'corrow-cargo-9');
const [packer, inspector] = loft.people;
if (!procedure || !assembly || !packer || !inspector) throw new Error('the demo loft is not complete');

await page.locator('html[data-checks="works works works works works"]').waitFor({ state: 'attached' });
await take(page, 'start');
await page.getByRole('button', { name: 'Teach the kiosk your voice' }).click();
await hands.expectScreen('enrol');
await hands.scan(badgeOf(packer));
await hands.press('affirm');
await page.locator('html[data-ear="listening"]').waitFor({ state: 'attached' });
await take(page, 'voice');
await hands.press('finish');
await hands.press('finish');
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
const wanted = new Set<string>(procedure.stages.map(({ kind }) => kind));
let holds = 0;
for (const stage of procedure.stages) {
  if (stage.id === firstClosingStage(procedure)?.id) await hands.account(procedure);
  if (wanted.delete(stage.kind)) {
    if (stage.kind === 'stow') {
      await hands.press('stow');
      await hands.press('stow');
      await hands.press('stow');
      await take(page, 'stage-stow');
      await hands.enter('count', stage.plan.stows - 3);
      await hands.press('affirm');
      await hands.press('stageComplete');
    } else {
      await take(page, `stage-${stage.kind}`);
      await hands.work(procedure, stage);
    }
  } else {
    await hands.work(procedure, stage);
  }
  if (stage.hold === null) continue;
  holds += 1;
  if (holds === 1) await take(page, 'hold-waiting');
  await hands.scan(badgeOf(inspector));
  if (holds === 1) {
    await take(page, 'hold-inspecting');
    await hands.press('releaseHold');
    await take(page, 'hold-read-back');
  } else await hands.press('releaseHold');
  await hands.press('affirm');
}
await hands.account(procedure);
await take(page, 'sign');
await hands.scan(badgeOf(packer));
await take(page, 'card');
await hands.press('cardPlaced');
await hands.scan(badgeOf(inspector));
await hands.press('releaseHold');
await hands.press('affirm');
await take(page, 'record');
await chromium.kill();
await server.close();
process.exit(0);
