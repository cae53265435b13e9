/** A voice is taught to the real page by real sound, is still there after a new start, and is gone when erased. */
import AxeBuilder from '@axe-core/playwright';
import { expect, test, type Page } from '@playwright/test';
import { demoLoft } from './support/demo-loft';
import { Hands } from './support/hands';
import { badgeOf } from './support/demo-badges';
import { readJournal } from './support/read-journal';
import { Rigger } from './support/rigger';
import { errorsOf, startPage } from './support/start-page';

const hazel = demoLoft().people.find(({ id }) => id === 'hazel-orrin');
const ALL_WORK = 'html[data-checks="works works works works works"]';

const LINES = ['stage complete', 'affirm', 'negative', 'say again'];

/** How many samples lie in the sample store, looked up past the kiosk; null where there is no sample store. */
function samplesKept(page: Page): Promise<number | null> {
  return page.evaluate(async () => {
    const name = 'voices-of-stowcall';
    if (!(await indexedDB.databases()).some((one) => one.name === name)) return null;
    const db = await new Promise<IDBDatabase>((done, failed) => {
      const opening = indexedDB.open(name);
      opening.onsuccess = () => done(opening.result);
      opening.onerror = () => failed(opening.error ?? new Error('not opened'));
    });
    const count = await new Promise<number>((done) => {
      const counting = db.transaction('samples').objectStore('samples').count();
      counting.onsuccess = () => done(counting.result);
    });
    db.close();
    return count;
  });
}

async function toBadge(page: Page, hands: Hands): Promise<void> {
  await expect(page.locator(ALL_WORK)).toBeAttached({ timeout: 60_000 });
  await page.getByRole('button', { name: 'Teach the kiosk your voice' }).click();
  await hands.expectScreen('enrol');
}

async function violations(page: Page): Promise<readonly string[]> {
  const { violations: found } = await new AxeBuilder({ page }).analyze();
  return found.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' ')}`);
}

test('a voice is taught, stays, and is erased', async ({ context, baseURL }) => {
  if (!baseURL || !hazel) throw new Error('the kiosk is not served');
  const page = await startPage(context, baseURL, { speakingRate: 2 });
  const [hands, rigger] = [new Hands(page), new Rigger(page)];

  await test.step('four lines are read and kept, which is as few as are of use', async () => {
    await toBadge(page, hands);
    expect(await samplesKept(page)).toBeNull();
    await hands.scan(badgeOf(hazel));
    await rigger.expectText('No recording, no name.');
    await hands.press('affirm');
    for (const [index, words] of LINES.entries()) {
      await rigger.say(words);
      await rigger.expectText(`Line ${String(index + 2)} of`);
    }
    await hands.press('finish');
    await rigger.expectText(/4 of \d+ lines were heard\./);
    expect(await samplesKept(page)).toBeNull();
    await hands.press('affirm');
    await rigger.expectText(/Kept: 4 of \d+ lines\./);
    expect(await samplesKept(page)).toBe(4);
  });

  await test.step('they are still there after a new start, and go on wish', async () => {
    await page.reload();
    await toBadge(page, hands);
    await hands.scan(badgeOf(hazel));
    await rigger.expectText('Your voice is kept here, in 4 lines.');
    expect(await violations(page)).toEqual([]);
    await hands.key('F12');
    await rigger.expectText('Nothing of your voice is left on this kiosk.');
    expect(await samplesKept(page)).toBe(0);
  });

  expect(await readJournal(page)).toEqual([]);
  expect(errorsOf(page)).toEqual([]);
});
