/**
 * The computer sleeps in the middle of a step: the page is frozen by the browser, or the whole browser is stopped, while
 * the wall clock runs on. Afterwards the pack stands where it stood, an inspector's time has run out, and the jump of
 * the clock is a fact.
 */
import { expect, test, type Page } from '@playwright/test';
import type { Fact } from '../../src/domain/fact';
import { makeCardPayload } from '../../src/scan/symbology/card';
import { removeProfile } from './ledger/browser-process';
import { burst, nextScan, placeAfter, scanOn, shownBy } from './support/by-card';
import { newProfile, startChromium } from './support/chromium-process';
import { demoLoft } from './support/demo-loft';
import { demoPlan } from './support/demo-plan';
import { readJournal } from './support/read-journal';
import { holdClock, setClock } from './support/settable-clock';
import { errorsOf, startPage } from './support/start-page';

const MINUTE = 60_000;
const plan = demoPlan(demoLoft());
const RELEASE = makeCardPayload({ name: 'releaseHold' });

/** Scans on until the screen is the one that is wanted, and an inspector is present if one is wanted. */
async function packUntil(page: Page, screen: string, inspecting = false): Promise<void> {
  for (let scans = 0; scans < 60; scans += 1) {
    const shown = await shownBy(page);
    if (shown.screen === screen && shown.inspecting === inspecting && shown.readBack === '') return;
    await scanOn(page, nextScan(plan, await readJournal(page), shown) ?? '');
  }
  throw new Error(`${screen} is never reached`);
}

function jumps(facts: readonly Fact[]): readonly number[] {
  return facts.flatMap(({ body }) =>
    body.kind === 'clockJumped' ? [Math.round((Date.parse(body.to) - Date.parse(body.from)) / MINUTE)] : [],
  );
}

const kindsAfter = (facts: readonly Fact[], from: number): readonly string[] =>
  facts.slice(from).map(({ body }) => body.kind);

test('asleep in the middle of a step: the same step, no verdict from before the sleep, the jump a fact', async ({
  baseURL,
}) => {
  test.setTimeout(3 * 60_000);
  if (baseURL === undefined) throw new Error('the kiosk is not served');
  const profile = await newProfile();
  const chromium = await startChromium(profile);
  try {
    await holdClock(chromium.context);
    const page = await startPage(chromium.context, baseURL, { deny: ['audio', 'video'] });
    const devtools = await chromium.context.newCDPSession(page);
    const asleep = async (ms: number): Promise<void> => {
      await devtools.send('Page.setWebLifecycleState', { state: 'frozen' });
      await new Promise((done) => setTimeout(done, ms));
      await devtools.send('Page.setWebLifecycleState', { state: 'active' });
    };
    await expect(page.locator('html[data-screen="start"]')).toBeAttached({ timeout: 30_000 });

    await test.step('the page frozen in a stage: the same stage, and the jump is a fact', async () => {
      await packUntil(page, 'stage');
      const before = await readJournal(page);
      const shown = await shownBy(page);
      await setClock(page, 40 * MINUTE);
      await asleep(1_500);
      expect(await shownBy(page)).toEqual(shown);
      await expect(page.locator('main')).toContainText(placeAfter(plan, before).title);
      await scanOn(page, nextScan(plan, before, shown) ?? '');
      const after = await readJournal(page);
      expect(kindsAfter(after, before.length)).toEqual(['clockJumped', 'stageConfirmed']);
      expect(jumps(after)).toEqual([40]);
    });

    await test.step('the page frozen while an inspector looks: a release at the waking is too late', async () => {
      await packUntil(page, 'hold', true);
      const before = await readJournal(page);
      // As the browser stops the page, nothing ticks any more; the clock has gone on when it wakes.
      await setClock(page, 50 * MINUTE, 300);
      await asleep(1_000);
      // Whether the release comes before the first tick after the waking or after it, there is no verdict.
      await burst(page, RELEASE);
      await expect(page.locator('body')).toContainText(/time for a verdict has run out|Not now: release hold/);
      await expect.poll(async () => (await shownBy(page)).inspecting).toBe(false);
      const after = await readJournal(page);
      expect(kindsAfter(after, before.length).filter((kind) => kind !== 'clockJumped')).toEqual(['verdictLapsed']);
      expect(jumps(after)).toEqual([40, 10]);
      expect(await shownBy(page)).toMatchObject({ screen: 'hold', readBack: '' });
    });

    await test.step('the whole browser stopped between the release and its affirmation: it lapses', async () => {
      await packUntil(page, 'hold', true);
      await scanOn(page, RELEASE);
      expect((await shownBy(page)).readBack).not.toBe('');
      const before = await readJournal(page);
      await setClock(page, 55 * MINUTE, 300);
      chromium.freeze();
      await new Promise((done) => setTimeout(done, 2_000));
      chromium.thaw();
      await burst(page, makeCardPayload({ name: 'affirm' }));
      await expect.poll(async () => (await shownBy(page)).inspecting).toBe(false);
      await expect.poll(async () => (await readJournal(page)).length).toBeGreaterThan(before.length);
      const after = await readJournal(page);
      expect(kindsAfter(after, before.length).filter((kind) => kind !== 'clockJumped')).toEqual(['verdictLapsed']);
      expect(jumps(after)).toEqual([40, 10, 5]);
      expect(await shownBy(page)).toMatchObject({ screen: 'hold', readBack: '' });
    });

    await test.step('a new scan of the badge opens the hold as ever', async () => {
      await packUntil(page, 'stage');
      const facts = await readJournal(page);
      expect(facts.filter(({ body }) => body.kind === 'holdReleased')).toHaveLength(1);
      expect(facts.map(({ seq }) => seq)).toEqual(facts.map((_, index) => index));
      expect(errorsOf(page)).toEqual([]);
    });
  } finally {
    await chromium.kill();
    await removeProfile(profile);
  }
});
