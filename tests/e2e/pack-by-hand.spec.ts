/** Microphone and camera denied: touch, keys and a keyboard-style scanner still finish a pack. */
import { readFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import { checkSignature } from '../../src/record/seal/ed25519';
import { verifyRecord } from '../../src/record/verify/verify-record';
import { demoLoft } from './support/demo-loft';
import { Hands } from './support/hands';
import { badgeOf } from './support/packing';
import { readJournal } from './support/read-journal';
import { errorsOf, startPage } from './support/start-page';

const loft = demoLoft();
const assembly = loft.assemblies.find(({ id }) => id === 'corrow-cargo-9');
const procedure = loft.procedures.find(({ id }) => id === 'corrow-c3-cargo');
const packer = loft.people.find(({ id }) => id === 'hazel-orrin');
const inspector = loft.people.find(({ id }) => id === 'tomas-veller');

test('with microphone and camera denied, a pack is finished by touch, keys and scanner', async ({
  context,
  baseURL,
}) => {
  test.setTimeout(6 * 60_000);
  if (!baseURL || !assembly || !procedure || !packer || !inspector) throw new Error('the demo loft is not complete');
  const page = await startPage(context, baseURL, { deny: ['audio', 'video'] });
  const hands = new Hands(page);
  await hands.expectScreen('start');
  await expect(page.locator('body')).toContainText('The microphone is not allowed');
  await expect(page.locator('body')).toContainText('The camera is not allowed');

  await hands.scan(badgeOf(packer));
  for (const { serial } of assembly.components) {
    await hands.scan(serial);
    await hands.press('affirm');
  }
  for (const tool of procedure.tools) {
    await hands.enter('count', tool.count);
    await hands.key('F2');
  }
  for (const stage of procedure.stages) {
    await hands.expectScreen('stage');
    await expect(page.locator('main')).toContainText(stage.title);
    await hands.work(procedure, stage);
    if (stage.hold === null) continue;
    await hands.expectScreen('hold');
    await hands.scan(badgeOf(inspector));
    await hands.press('releaseHold');
    await hands.press('affirm');
  }
  for (const tool of procedure.tools) {
    await hands.enter('count', tool.count);
    await hands.press('affirm');
  }
  await hands.expectScreen('sign');
  await hands.scan(badgeOf(packer));
  await hands.expectScreen('record');

  const facts = await readJournal(page);
  expect(
    facts.filter(({ body }) => body.kind === 'holdReleased').map(({ body }) => 'channel' in body && body.channel),
  ).toEqual(procedure.stages.filter(({ hold }) => hold !== null).map(() => 'touch'));
  expect(facts.at(-1)?.body.kind).toBe('signed');

  // The card proves itself at the kiosk, and the exported journal to the verifier.
  const code = (await page.locator('.card-proof img').getAttribute('data-text')) ?? '';
  await page.getByRole('button', { name: 'Back to the start' }).click();
  await hands.scan(code);
  await hands.expectScreen('records');
  await expect(page.locator('.outcome')).toContainText('This card is genuine');
  await expect(page.locator('.outcome')).toContainText('MFT-6042-908');
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export everything' }).click();
  const file = await (await downloading).path();
  const verdict = await verifyRecord(new Uint8Array(readFileSync(file)), { keys: [], checkSignature });
  expect(verdict.findings).toEqual([]);
  expect(verdict.facts).toBe(facts.length);
  await page.locator('input[type=file]').first().setInputFiles(file);
  await expect(page.locator('.outcome')).toContainText('is sound');
  await page.locator('input[type=file]').first().setInputFiles('demo-data/exports/tampered-24-due-date.jsonl');
  await expect(page.locator('.outcome')).toContainText('is not sound');
  expect(errorsOf(page)).toEqual([]);
});
