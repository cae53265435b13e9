import { fileURLToPath } from 'node:url';
import { expect, test, type Page } from '@playwright/test';
import { servePage, type ServedPage } from '../bench/serve-page';
import { damageRuns, tornLogRuns } from './ledger/disk-damage';
import { faultsOf, killRuns } from './ledger/kill-runs';
import { powerCuts } from './ledger/power-cuts';
import type {} from './ledger/page';

/** Ten keep the run short; STOWCALL_KILLS=200 npx playwright test ledger -g killed runs as many as wanted. */
const KILLS = Number(process.env.STOWCALL_KILLS ?? 10);
/** STOWCALL_POWER_CUTS=30 npx playwright test ledger -g power, as root on Linux: file systems are mounted for it. */
const POWER_CUTS = Number(process.env.STOWCALL_POWER_CUTS ?? 0);
const FLIPS = Number(process.env.STOWCALL_FLIPS ?? 3);

let served: ServedPage;
test.beforeAll(async () => {
  served = await servePage(fileURLToPath(new URL('./ledger/page.ts', import.meta.url)));
});
test.afterAll(() => served.close());

async function ready(page: Page): Promise<Page> {
  await page.goto(served.url);
  await page.waitForFunction(() => document.title === 'ready');
  return page;
}

test('the store does what every ledger must, in this browser', async ({ page }) => {
  const results = await (await ready(page)).evaluate(() => window.ledgerPage.runCases());
  expect(results.length).toBeGreaterThan(10);
  expect(results.filter(({ fault }) => fault !== null)).toEqual([]);
});

test('an append is strict in the browser’s own words', async ({ page }) => {
  await ready(page);
  expect(await page.evaluate(() => window.ledgerPage.durabilityOfAppend('strict'))).toEqual(['strict']);
  expect(['granted', 'refused']).toContain(await page.evaluate(() => window.ledgerPage.persistence('strict')));
});

test('killed at any instant, nothing acknowledged is lost', async () => {
  test.setTimeout(60_000 + KILLS * 15_000);
  const report = await killRuns(served.url, KILLS, (sofar) => {
    // A long run can be read before its end.
    if (sofar.kills % 25 === 0 || sofar.kills === KILLS) console.log(JSON.stringify(sofar));
  });
  expect(report.faults).toEqual([]);
  expect(report.acknowledged).toBeGreaterThan(KILLS);
  expect(report.stored).toBeGreaterThanOrEqual(report.acknowledgedFacts);
});

test('the power cut at any instant, nothing acknowledged is lost', async () => {
  test.skip(POWER_CUTS === 0, 'needs root and minutes; asked for by STOWCALL_POWER_CUTS');
  test.setTimeout(60_000 + POWER_CUTS * 60_000);
  const report = await powerCuts(served.url, POWER_CUTS, (sofar) => console.log(JSON.stringify(sofar)));
  expect(report.faults).toEqual([]);
  expect(report.acknowledged).toBeGreaterThan(POWER_CUTS);
});

test('a corrupt record: found and named, the rest usable, nothing written over', async ({ page }) => {
  await ready(page);
  await page.evaluate(() => window.ledgerPage.fill('corrupt', 300, 10));
  await page.evaluate(() => window.ledgerPage.corrupt('corrupt', 112));
  const before = await page.evaluate(() => window.ledgerPage.dump('corrupt'));
  await page.reload();
  await page.waitForFunction(() => document.title === 'ready');
  const seen = await page.evaluate(() => window.ledgerPage.inspect('corrupt', ['pack-0', 'pack-1', 'pack-2']));
  expect(seen.damages.map(({ seq }) => seq)).toEqual([112]);
  expect(seen.damages[0]?.detail).toMatch(/^Fact 112 /);
  // The two packs beside it can still be read; nothing is added on top of the damage.
  expect(seen.facts.map(({ pack }) => pack)).toEqual([...Array(100).fill('pack-0'), ...Array(100).fill('pack-2')]);
  const refused = await page.evaluate(() => window.ledgerPage.appendOne('corrupt'));
  expect(refused).toMatchObject({ ok: false, reason: 'corrupt' });
  expect(await page.evaluate(() => window.ledgerPage.dump('corrupt'))).toBe(before);
});

test('a database of a newer kiosk is left alone from the first open on', async ({ page }) => {
  await ready(page);
  await page.evaluate(() => window.ledgerPage.upgrade('from-newer', 7));
  const seen = await page.evaluate(() => window.ledgerPage.inspect('from-newer', []));
  expect(seen.opened).toMatchObject({ ok: false, reason: 'newer' });
  expect(await page.evaluate(() => window.ledgerPage.upgrade('from-newer', 7))).toBe(7);
});

test('a kill in the middle of a log record does not cost the journal at the starts that follow', async () => {
  for (const { head, seen, tornIsGone } of await tornLogRuns(served.url)) {
    expect(tornIsGone).toBe(true);
    expect(faultsOf(seen, [head])).toEqual([]);
    expect(seen.opened).toEqual({ ok: true, value: head });
  }
});

test('one bit flipped on the disk is never taken for a sound or an empty journal', async () => {
  test.setTimeout(60_000 + FLIPS * 30_000);
  const outcomes = await damageRuns(served.url, FLIPS);
  console.log(JSON.stringify(outcomes.map(({ file, answers }) => `${file}: ${answers.join()}`)));
  expect(outcomes.flatMap(({ hidden }) => hidden)).toEqual([]);
  // Chromium itself sees most flips by its checksums, and then deletes the whole database.
  expect(outcomes.some(({ answers }) => answers.every((answer) => answer === 'refused'))).toBe(true);
});

test('a full disk stops the append, keeps what was stored and lets it go on with room', async ({ page, context }) => {
  await ready(page);
  const devtools = await context.newCDPSession(page);
  const origin = new URL(served.url).origin;
  // Before the first write: the browser remembers for a while how much room it has seen.
  await devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1_000_000 });
  await page.evaluate(() => window.ledgerPage.fill('full', 20, 10));
  const refusal = await page.evaluate(() => window.ledgerPage.appendUntilRefused('full', 2_000));
  expect(refusal.reason, refusal.detail).toBe('full');
  const packs = ['pack-0', 'pack-full'];
  const full = await page.evaluate((names) => window.ledgerPage.inspect('full', names), packs);
  expect(faultsOf(full, [])).toEqual([]);
  expect(full.facts.length).toBe(20 + refusal.stored);

  await devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1_000_000_000 });
  const after = await page.evaluate(() => window.ledgerPage.appendUntilRefused('full', 1));
  expect(after).toEqual({ stored: 1, reason: 'none', detail: '' });
});

test('a newer kiosk in another tab gets the journal; the old one stops and can be told why', async ({ context }) => {
  const [old, newer] = [await ready(await context.newPage()), await ready(await context.newPage())];
  expect(await old.evaluate(() => window.ledgerPage.appendOne('newer'))).toMatchObject({ ok: true });
  expect(await newer.evaluate(() => window.ledgerPage.upgrade('newer', 2))).toBe(2);
  expect(await old.evaluate(() => window.ledgerPage.appendOne('newer'))).toMatchObject({ ok: false, reason: 'newer' });
});

test('two tabs on one journal: the second is turned away, and nothing is written twice', async ({ context }) => {
  const [a, b] = [await ready(await context.newPage()), await ready(await context.newPage())];
  // Both know the same head before either writes, however fast the one is.
  for (const page of [a, b]) await page.evaluate(() => window.ledgerPage.hold('tabs'));
  const both = await Promise.all(
    [a, b].map((page) => page.evaluate(() => window.ledgerPage.fill('tabs', 50, 1).catch(String))),
  );
  // Both raced for the same head; the loser was stopped by the first append that came between.
  const journal = await a.evaluate(() => window.ledgerPage.inspect('tabs', ['pack-0']));
  expect(
    faultsOf(
      journal,
      both.filter((head) => typeof head !== 'string'),
    ),
  ).toEqual([]);
  expect(both.filter((head) => typeof head === 'string').join()).toMatch(/another page/i);
});

test('a table belongs to one tab; the next takes over when it closes', async ({ context }) => {
  const [a, b] = [await ready(await context.newPage()), await ready(await context.newPage())];
  expect(await a.evaluate(() => window.ledgerPage.take('table-1'))).toBe('mine');
  expect(await b.evaluate(() => window.ledgerPage.take('table-1'))).toBe('taken');
  expect(await b.evaluate(() => window.ledgerPage.take('table-2'))).toBe('mine');
  const waiting = b.evaluate(() => window.ledgerPage.wait('table-1'));
  await a.close();
  expect(await waiting).toBe('mine');
});

test('a table that is let go passes on, and one that is seized is lost', async ({ context }) => {
  const [a, b] = [await ready(await context.newPage()), await ready(await context.newPage())];
  expect(await a.evaluate(() => window.ledgerPage.take('table-1'))).toBe('mine');
  const waiting = b.evaluate(() => window.ledgerPage.wait('table-1'));
  await a.evaluate(() => window.ledgerPage.release('table-1'));
  expect(await waiting).toBe('mine');
  expect(await b.title()).toBe('ready');
  await a.evaluate(() => window.ledgerPage.seize('table-1'));
  await expect(b).toHaveTitle('lost');
});
