/**
 * Every screen in real Chromium: no accessibility violation that axe can find (WCAG 2.2 A and AA), targets for gloved
 * hands, nothing cut off, the one thing to do in sight without scrolling, and nothing that the page's policy forbids.
 */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import { expect, test, type Page } from '@playwright/test';
import { fixturesAt } from '../screens/fixtures';
import { serveGallery, type Gallery } from '../screens/gallery/serve-gallery';

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const NAMES = Object.keys(fixturesAt(0));
const GUIDE = join(import.meta.dirname, '../../public/guide');
const SMALL = { width: 1280, height: 800 };
const LARGE = { width: 1920, height: 1080 };
/** Commands whose pad is looked at as well. */
const PADS: readonly (readonly [string, string])[] = [
  ['stage-count', 'count'],
  ['stage-stow', 'count'],
  ['stage-measure', 'measured'],
  ['rehearsal', 'goToStage'],
  ['hold-choosing-stage', 'goToStage'],
];

let gallery: Gallery;
let page: Page;
let complaints: string[] = [];

// One page for all: opening a new one for each of them takes longer than looking at it.
test.beforeAll(async ({ browser }) => {
  gallery = await serveGallery();
  // The checker opens a page of its own beside it, so it needs the context.
  page = await (await browser.newContext()).newPage();
  page.on('console', (message) => {
    // The gallery has no icon to give.
    if (message.type() === 'error' && !message.text().includes('404')) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
});
test.beforeEach(async () => {
  complaints = [];
  await page.emulateMedia({ media: 'screen' });
  await page.setViewportSize(SMALL);
});
test.afterAll(async () => {
  await page.context().close();
  await gallery.close();
});

async function open(name: string, statusBar?: string): Promise<void> {
  await page.goto(gallery.view(name, statusBar));
  await page.locator('h1').waitFor();
}

async function violations(): Promise<readonly string[]> {
  const { violations: found } = await new AxeBuilder({ page }).withTags(RULES).analyze();
  return found.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' ')}`);
}

interface Layout {
  /** Controls narrower or lower than 64 pixels. */
  readonly small: readonly string[];
  /** The one thing to do, where it is not wholly in sight. */
  readonly unseen: readonly string[];
  /** Controls that lie outside the page. */
  readonly cutOff: readonly string[];
  readonly pageScrolls: boolean;
  /** Font size of the largest words, and of what they have to be larger than, in pixels. */
  readonly act: number;
  readonly others: number;
}

function measure(): Layout {
  const name = (element: Element): string => (element.textContent ?? '').slice(0, 40);
  const inside = (element: Element): boolean => {
    const box = element.getBoundingClientRect();
    return box.top >= 0 && box.left >= 0 && box.bottom <= innerHeight + 1 && box.right <= innerWidth + 1;
  };
  const seen = (element: Element): boolean => {
    const column = element.closest('.sheet-main, .sheet-side')?.getBoundingClientRect();
    return inside(element) && (column === undefined || element.getBoundingClientRect().bottom <= column.bottom + 1);
  };
  const all = (selector: string): Element[] => [...document.querySelectorAll(selector)];
  const size = (element: Element): number => Number.parseFloat(getComputedStyle(element).fontSize);
  const tall = (element: Element): boolean => {
    const box = element.getBoundingClientRect();
    return box.width >= 63.5 && box.height >= 63.5;
  };
  return {
    small: all('button, summary')
      .filter((each) => !tall(each))
      .map(name),
    unseen: all('h1, .said, .value, .inspect-points li, .answers button')
      .filter((each) => !seen(each))
      .map(name),
    cutOff: all('.commands button, .status-bar *')
      .filter((each) => !inside(each))
      .map(name),
    pageScrolls: document.documentElement.scrollHeight > innerHeight + 1,
    act: Math.max(...all('h1, .said, .value, .inspect-points').map(size)),
    others: Math.max(
      ...all('.steps, .inspect:not(.inspect-points), .checks, .command-label, .caution, .eyebrow').map(size),
      0,
    ),
  };
}

async function expectInPlace(): Promise<void> {
  const { act, others, ...rest } = await page.evaluate(measure);
  expect(rest).toEqual({ small: [], unseen: [], cutOff: [], pageScrolls: false });
  expect(act).toBeGreaterThanOrEqual(others);
}

for (const name of NAMES) {
  test(`${name}: all in its place on both screens, and nothing that axe finds`, async () => {
    await page.setViewportSize(LARGE);
    await open(name);
    await expectInPlace();
    await page.setViewportSize(SMALL);
    // The type is fitted anew when the column has its new size.
    await expect(expectInPlace).toPass({ timeout: 2000 });
    expect(await violations()).toEqual([]);
    expect(complaints).toEqual([]);
  });
}

test('the demo packs and rehearsals: every view has all in its place, at sizes to be read from two metres', async () => {
  for (const size of [LARGE, SMALL]) {
    await page.setViewportSize(size);
    await page.goto(gallery.real);
    await page.waitForFunction(() => window.showReal !== undefined);
    const wrong: string[] = [];
    for (let index = 0; ; index += 1) {
      const name = await page.evaluate((at) => window.showReal?.(at) ?? null, index);
      if (name === null) break;
      const { act, others, ...rest } = await page.evaluate(measure);
      const problems = Object.entries(rest).filter(([, found]) => (Array.isArray(found) ? found.length > 0 : found));
      if (problems.length > 0 || act < others) wrong.push(`${name}: ${JSON.stringify(problems)}`);
      // From level 5 on the steps are smaller than 16 minutes of arc (type-size.test.ts): only below a notice, since ten
      // commands stand in two rows beneath them. What is to be read on screens without steps has sizes of its own.
      if ((await page.locator('.steps').count()) === 0) continue;
      const level = await page.locator('.sheet-main').getAttribute('data-fit');
      const notice = (await page.locator('.notice').allTextContents()).join('');
      if (Number(level) > (notice === '' ? 4 : 6)) wrong.push(`${name}: level ${String(level)}`);
    }
    expect(wrong).toEqual([]);
  }
});

for (const [name, command] of PADS) {
  test(`${name}: the pad of ${command}`, async () => {
    await open(name);
    await page.locator(`[data-command="${command}"]`).click();
    await page.locator('.pad').waitFor();
    expect(await violations()).toEqual([]);
    expect((await page.evaluate(measure)).small).toEqual([]);
  });
}

for (const statusBar of ['speaking', 'loading', 'troubled']) {
  test(`the status bar: ${statusBar}`, async () => {
    await open('stage-stow', statusBar);
    expect(await violations()).toEqual([]);
    expect((await page.evaluate(measure)).cutOff).toEqual([]);
  });
}

for (const name of ['start', 'stage-stow', 'stage-measure', 'hold-inspecting', 'identify-read-back', 'record']) {
  // WCAG 1.4.10: 320 CSS pixels wide, as at 400 % zoom of a screen of 1280.
  test(`${name}: no scrolling sideways at 320 pixels`, async () => {
    await page.setViewportSize({ width: 320, height: 640 });
    await open(name);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    expect(await violations()).toEqual([]);
  });
}

test('focus goes through the controls in the order in which they are read', async () => {
  await open('identify-read-back');
  const order: string[] = [];
  for (let press = 0; press < 4; press += 1) {
    await page.keyboard.press('Tab');
    order.push(await page.evaluate(() => (document.activeElement as HTMLElement).dataset['command'] ?? 'none'));
  }
  expect(order).toEqual(['affirm', 'negative', 'sayAgain', 'whatRemains']);
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement as Element).outlineWidth);
  expect(outline).toBe('4px');
});

test('the card alone is printed', async () => {
  await open('record');
  await page.emulateMedia({ media: 'print' });
  const seen = await page.evaluate(() =>
    [...document.querySelectorAll('.app *')]
      .filter((each) => each.closest('.card') === null && each.querySelector('.card') === null)
      .filter((each) => each.getClientRects().length > 0)
      .filter((each) => each.closest('.unseen') === null)
      .map((each) => each.outerHTML.slice(0, 80)),
  );
  expect(seen).toEqual([]);
  const papers = page.locator('.card');
  expect(await papers.count()).toBeGreaterThan(0);
  for (const paper of await papers.all()) await expect(paper).toContainText('must not be used to pack a parachute');
});

test('the code on the card is printed at its true size', async () => {
  await open('record-proved');
  await page.emulateMedia({ media: 'print' });
  const box = await page.locator('.card-proof img').first().boundingBox();
  // 66 mm, at 96 CSS pixels to the inch.
  expect(Math.round(box?.width ?? 0)).toBe(249);
  expect(Math.round(box?.height ?? 0)).toBe(249);
});

test('a screen without a card prints nothing', async () => {
  await open('stage-stow');
  await page.emulateMedia({ media: 'print' });
  await expect(page.locator('.app')).toBeHidden();
});

test('the guide: nothing that axe finds on any page, nothing that the policy forbids, no scrolling sideways', async ({
  baseURL,
}) => {
  const names = readdirSync(GUIDE).filter((name) => name.endsWith('.html'));
  expect(names.length).toBeGreaterThan(0);
  for (const name of names) {
    await page.setViewportSize(SMALL);
    await page.goto(new URL(`guide/${name}`, baseURL).href);
    expect(await violations(), name).toEqual([]);
    expect(await page.evaluate(allPicturesAreDrawn), name).toBe(true);
    // The first stop of the Tab key leads past the header.
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.className), name).toBe('skip');
    await page.setViewportSize({ width: 320, height: 640 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth), name).toBeLessThanOrEqual(320);
  }
  expect(complaints).toEqual([]);
});

function allPicturesAreDrawn(): boolean {
  return [...document.images].every((image) => image.complete && image.naturalWidth > 0);
}
