/** Microphone and camera denied: touch, keys and a keyboard-style scanner still finish a pack. */
import { expect, test } from '@playwright/test';
import { allHoldsOf, firstClosingStage } from '../../src/domain/procedure';
import { demoLoft } from './support/demo-loft';
import { demoPlan } from './support/demo-plan';
import { exportRecord } from './support/export-record';
import { Hands } from './support/hands';
import { badgeOf } from './support/demo-badges';
import { readJournal } from './support/read-journal';
import { errorsOf, startPage } from './support/start-page';

const { assembly, procedure, packer, inspector } = demoPlan(demoLoft());

test('with microphone and camera denied, a pack is finished by touch, keys and scanner', async ({
  context,
  baseURL,
}) => {
  test.setTimeout(6 * 60_000);
  if (!baseURL) throw new Error('the kiosk is not served');
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
  await hands.lookOver(assembly);
  for (const tool of procedure.tools) {
    await hands.enter('count', tool.count);
    await hands.key('F2');
  }
  for (const stage of procedure.stages) {
    if (stage.id === firstClosingStage(procedure)?.id) await hands.account(procedure);
    await hands.expectScreen('stage');
    await expect(page.locator('main')).toContainText(stage.title);
    await hands.work(procedure, stage);
    if (stage.hold === null) continue;
    await hands.expectScreen('hold');
    await hands.scan(badgeOf(inspector));
    await hands.press('releaseHold');
    await hands.press('affirm');
  }
  await hands.account(procedure);
  await hands.expectScreen('sign');
  await hands.scan(badgeOf(packer));
  await hands.expectScreen('card');
  await expect(page.locator('main')).toContainText('initialled by hand');
  await hands.press('cardPlaced');
  await hands.expectScreen('hold');
  await hands.scan(badgeOf(inspector));
  await hands.press('releaseHold');
  await hands.press('affirm');
  await hands.expectScreen('record');
  await expect(page.locator('main')).toContainText(`${procedure.finalHold?.title ?? ''}: ${inspector.name}`);

  const facts = await readJournal(page);
  expect(
    facts.filter(({ body }) => body.kind === 'holdReleased').map(({ body }) => 'channel' in body && body.channel),
  ).toEqual(allHoldsOf(procedure).map(() => 'touch'));
  expect(facts.at(-1)?.body.kind).toBe('packClosed');

  // The card proves itself at the kiosk, and the exported journal to the verifier.
  const code = (await page.locator('.card-proof img').first().getAttribute('data-text')) ?? '';
  await page.getByRole('button', { name: 'Back to the start' }).click();
  await hands.scan(code);
  await hands.expectScreen('records');
  await expect(page.locator('.outcome')).toContainText('This card is genuine');
  await expect(page.locator('.outcome')).toContainText('MFT-6042-908');
  const { file, verdict } = await exportRecord(page);
  expect(verdict.findings).toEqual([]);
  expect(verdict.facts).toBe(facts.length);
  await page.locator('input[type=file]').first().setInputFiles(file);
  await expect(page.locator('.outcome')).toContainText('is sound');
  await page.locator('input[type=file]').first().setInputFiles('demo-data/exports/tampered-24-due-date.jsonl');
  await expect(page.locator('.outcome')).toContainText('is not sound');
  expect(errorsOf(page)).toEqual([]);
});
