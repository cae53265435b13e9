/**
 * A new version of the page comes in the middle of a pack: through a look for it, a reload and a killed browser the pack
 * goes on with the version that it was begun with, and the new one takes over after it.
 */
import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test, type Page } from '@playwright/test';
import { serve } from '../../src/tools/serve.mjs';
import { removeProfile } from './ledger/browser-process';
import { nextScan, scanOn, shownBy, type PackPlan } from './support/by-card';
import { newProfile, startChromium, type RunningChromium } from './support/chromium-process';
import { demoLoft } from './support/demo-loft';
import { demoPlan } from './support/demo-plan';
import { readJournal } from './support/read-journal';
import { errorsOf, startPage } from './support/start-page';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** One byte more in the title, and in a style sheet, which thereby has another name: the old one is gone. */
function makeNewVersion(dist: string): void {
  const sheet = readdirSync(join(dist, 'assets')).find((file) => file.endsWith('.css')) ?? '';
  const path = join(dist, 'assets', sheet);
  writeFileSync(path, `${readFileSync(path, 'utf8')}\n`);
  renameSync(path, join(dist, 'assets/new-version.css'));
  const page = readFileSync(join(dist, 'index.html'), 'utf8');
  const md5 = (text: string): string => createHash('md5').update(text).digest('hex');
  const next = page
    .replace('<title>Stowcall<', '<title>Stowcall.<')
    .replace(`assets/${sheet}`, 'assets/new-version.css');
  const worker = readFileSync(join(dist, 'sw.js'), 'utf8');
  const listed = worker.replaceAll(`assets/${sheet}`, 'assets/new-version.css').replace(md5(page), md5(next));
  expect([next, listed].map((text) => text.includes(sheet))).toEqual([false, false]);
  expect(listed).toContain(md5(next));
  writeFileSync(join(dist, 'index.html'), next);
  writeFileSync(join(dist, 'sw.js'), listed);
}

/** Asks for a new version, and waits until the browser has done with whatever it found. */
function lookForNewVersion(page: Page): Promise<{ waiting: boolean; refused: boolean }> {
  return page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update();
    const worker = registration.installing ?? registration.waiting;
    while (worker !== null && worker.state === 'installing') await new Promise((done) => setTimeout(done, 20));
    return { waiting: registration.waiting !== null, refused: worker?.state === 'redundant' };
  });
}

async function packOn(page: Page, plan: PackPlan, scans: number): Promise<void> {
  for (let done = 0; done < scans; done += 1) {
    const payload = nextScan(plan, await readJournal(page), await shownBy(page));
    if (payload === null) return;
    await scanOn(page, payload);
  }
}

/** A page of its own that can be replaced by another version, and a browser for it. */
async function serveOwnBuild(): Promise<{ dist: string; url: string; profile: string; end: () => Promise<void> }> {
  const root = mkdtempSync(join(tmpdir(), 'stowcall-versions-'));
  cpSync(join(ROOT, 'dist'), join(root, 'dist'), { recursive: true });
  const served = await serve({ root, port: 0 });
  const profile = await newProfile();
  const end = async (): Promise<void> => {
    await removeProfile(profile);
    await served.close();
    rmSync(root, { recursive: true, force: true });
  };
  return { dist: join(root, 'dist'), url: served.url, profile, end };
}

const isControlled = (page: Page): Promise<unknown> =>
  page.waitForFunction(() => navigator.serviceWorker.controller !== null, null, { timeout: 60_000 });

/** Scans the packer's badge at the start screen. */
async function beginPack(page: Page, plan: PackPlan): Promise<void> {
  const { prompt } = await shownBy(page);
  await scanOn(page, nextScan(plan, [], { screen: 'start', prompt, readBack: '', inspecting: false }) ?? '');
  await expect(page.locator('html[data-screen="identify"]')).toBeAttached();
}

const styled = (page: Page): Promise<boolean> =>
  page.evaluate(() => [...document.styleSheets].some(({ cssRules }) => cssRules.length > 20));

test('a new version in the middle of a pack waits until the pack is over', async () => {
  test.setTimeout(5 * 60_000);
  const { dist, url, profile, end } = await serveOwnBuild();
  const plan = demoPlan(demoLoft());
  let chromium: RunningChromium = await startChromium(profile);
  const open = (): Promise<Page> => startPage(chromium.context, url, { deny: ['audio', 'video'] });
  const expectOld = async (page: Page): Promise<void> => {
    await expect(page.locator('html:not([data-screen="loading"])')).toBeAttached({ timeout: 30_000 });
    await expect(page).toHaveTitle('Stowcall');
    expect(await styled(page)).toBe(true);
  };
  try {
    let page = await open();
    await expectOld(page);
    await isControlled(page);
    await packOn(page, plan, 9);
    const begun = await readJournal(page);
    expect(begun.length).toBeGreaterThan(4);

    makeNewVersion(dist);
    expect(await lookForNewVersion(page)).toEqual({ waiting: false, refused: true });
    await page.reload();
    await expectOld(page);
    await expect(page.locator('body')).toContainText('Back after a break');
    expect(errorsOf(page)).toEqual([]);

    await chromium.kill();
    chromium = await startChromium(profile);
    page = await open();
    await expectOld(page);
    await expect(page.locator('body')).toContainText('Back after a break');
    await packOn(page, plan, 200);
    await expect(page.locator('html[data-screen="record"]')).toBeAttached();
    await expectOld(page);

    // Back at the start the page looks again, finds the new version and loads itself anew.
    await page.waitForTimeout(600);
    await page.getByRole('button', { name: 'Back to the start' }).click();
    await expect(page).toHaveTitle('Stowcall.', { timeout: 60_000 });
    await expect(page.locator('html[data-screen="start"]')).toBeAttached({ timeout: 30_000 });
    expect(await styled(page)).toBe(true);
    const before = await readJournal(page);
    await beginPack(page, plan);
    expect((await readJournal(page)).length).toBeGreaterThan(before.length);
    expect(errorsOf(page)).toEqual([]);
  } finally {
    await chromium.kill();
    await end();
  }
});

test('a new version is not installed while the first fact of a pack is being stored', async () => {
  test.setTimeout(5 * 60_000);
  const { dist, url, profile, end } = await serveOwnBuild();
  const chromium = await startChromium(profile);
  try {
    const page = await startPage(chromium.context, url, { deny: ['audio', 'video'] });
    await isControlled(page);
    // Another page of the kiosk has just begun a pack: the first fact is on its way to the disk.
    const beginning = await chromium.context.newPage();
    await beginning.goto(`${url}notices.json`);
    await beginning.evaluate(
      () =>
        new Promise<void>((held) => {
          void navigator.locks.request('stowcall-version', () => {
            held();
            return new Promise<void>((done) => Object.assign(window, { done }));
          });
        }),
    );
    // Only now, as opening that page had the browser look for a new version by itself.
    makeNewVersion(dist);
    const state = (): Promise<string | undefined> =>
      beginning.evaluate(async () => {
        const registration = await navigator.serviceWorker.getRegistration();
        const { pending } = await navigator.locks.query();
        const asks = pending?.some(({ name }) => name === 'stowcall-version') ?? false;
        return asks ? registration?.installing?.state : 'not asking yet';
      });
    await page.evaluate(async () => void (await navigator.serviceWorker.ready).update());
    // All is fetched and the worker asks for the lock; it gets it when the page lets go.
    await expect.poll(state, { timeout: 120_000 }).toBe('installing');
    await expect(page).toHaveTitle('Stowcall');
    await beginning.evaluate(() => (window as unknown as { done: () => void }).done());
    await beginning.close();
    await expect(page).toHaveTitle('Stowcall.', { timeout: 60_000 });
    // And the worker has let go of it: a pack begins.
    await expect(page.locator('html[data-screen="start"]')).toBeAttached({ timeout: 30_000 });
    await beginPack(page, demoPlan(demoLoft()));
  } finally {
    await chromium.kill();
    await end();
  }
});
