/** The built page in a real browser: self-check, a trainee, two tabs, devices that come and go, no network. */
import { expect, test } from '@playwright/test';
import { demoLoft } from './support/demo-loft';
import { Hands } from './support/hands';
import { badgeOf } from './support/demo-badges';
import { readJournal } from './support/read-journal';
import { Rigger } from './support/rigger';
import { errorsOf, startPage } from './support/start-page';

const loft = demoLoft();
const packer = loft.people.find(({ id }) => id === 'hazel-orrin');
const ALL_WORK = 'html[data-checks="works works works works works"]';

test('all parts work, no error is thrown, and nothing is asked of another origin', async ({ context, baseURL }) => {
  if (!baseURL) throw new Error('the kiosk is not served');
  const foreign: string[] = [];
  context.on('request', (request) => {
    const { protocol, origin } = new URL(request.url());
    if (protocol.startsWith('http') && origin !== new URL(baseURL).origin) foreign.push(request.url());
  });
  const page = await startPage(context, baseURL);
  await expect(page.locator(ALL_WORK)).toBeAttached({ timeout: 60_000 });
  expect(foreign).toEqual([]);
  expect(errorsOf(page)).toEqual([]);
});

test('a trainee hears a procedure by voice, and nothing is recorded', async ({ context, baseURL }) => {
  if (!baseURL) throw new Error('the kiosk is not served');
  const page = await startPage(context, baseURL);
  const rigger = new Rigger(page);
  await expect(page.locator(ALL_WORK)).toBeAttached({ timeout: 60_000 });
  const procedure = loft.procedures.find(({ id }) => id === 'corrow-c3-cargo');
  if (procedure === undefined) throw new Error('no procedure');
  await page.getByRole('button', { name: new RegExp(procedure.title) }).click();
  await rigger.expectScreen('rehearsal');
  await rigger.expectText(procedure.stages[0]?.title ?? '');
  await rigger.say('next stage');
  await rigger.expectText(procedure.stages[1]?.title ?? '');
  await rigger.say('go to stage four');
  await rigger.expectText(procedure.stages[3]?.title ?? '');
  await rigger.say('finish reading');
  await rigger.expectScreen('start');
  expect(await readJournal(page)).toEqual([]);
});

test('the second tab says that the first is in charge, and takes over when it goes', async ({ context, baseURL }) => {
  if (!baseURL) throw new Error('the kiosk is not served');
  const first = await startPage(context, baseURL);
  await expect(first.locator('html[data-screen="start"]')).toBeAttached({ timeout: 30_000 });
  const second = await startPage(context, baseURL);
  await expect(second.locator('html[data-screen="secondTab"]')).toBeAttached({ timeout: 30_000 });
  await expect(second.locator('body')).toContainText(/other|another/i);
  await first.close();
  await expect(second.locator('html[data-screen="start"]')).toBeAttached({ timeout: 30_000 });
});

test('camera and microphone pulled out in the middle of a pack: said, and back when plugged in', async ({
  context,
  baseURL,
}) => {
  if (!baseURL || !packer) throw new Error('the kiosk is not served');
  const page = await startPage(context, baseURL);
  const hands = new Hands(page);
  await expect(page.locator(ALL_WORK)).toBeAttached({ timeout: 60_000 });
  await hands.scan(badgeOf(packer));
  await hands.expectScreen('identify');
  await page.evaluate(() => window.tableStub.unplug('audio'));
  await expect(page.locator('body')).toContainText(/microphone was unplugged|No microphone is connected/);
  await page.evaluate(() => window.tableStub.unplug('video'));
  await expect(page.locator('body')).toContainText(/camera was unplugged|No camera answers/);
  await hands.scan('QHB-2104-017');
  await hands.press('affirm');
  await page.evaluate(() => window.tableStub.plugIn());
  await expect(page.locator('body')).not.toContainText(/unplugged|is connected/, { timeout: 30_000 });
  await expect(page.locator('html[data-ear="listening"]')).toBeAttached({ timeout: 60_000 });
});

test('once loaded, the kiosk needs no network', async ({ context, baseURL }) => {
  if (!baseURL) throw new Error('the kiosk is not served');
  const page = await startPage(context, baseURL);
  await expect(page.locator(ALL_WORK)).toBeAttached({ timeout: 60_000 });
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await context.setOffline(true);
  await page.reload();
  await expect(page.locator(ALL_WORK)).toBeAttached({ timeout: 60_000 });
  // The guide is stored too, and leads back to the kiosk.
  await page.getByRole('link', { name: 'Help' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Guide to Stowcall' })).toBeVisible();
  await page.getByRole('link', { name: 'Back to the kiosk' }).first().click();
  await expect(page.locator(ALL_WORK)).toBeAttached({ timeout: 60_000 });
  await context.setOffline(false);
});

test('a broken procedure file is refused with file, line and reason, and the others are usable', async ({
  context,
  baseURL,
}) => {
  if (!baseURL) throw new Error('the kiosk is not served');
  await context.route('**/loft/index.json', async (route) => {
    const response = await route.fetch();
    const paths = (await response.json()) as string[];
    await route.fulfill({ json: [...paths, 'procedures/broken.yaml'] });
  });
  await context.route('**/loft/procedures/broken.yaml', (route) =>
    route.fulfill({ body: 'id: broken\ntitle: Broken\nrevision: "1"\nstages: []\n' }),
  );
  const page = await startPage(context, baseURL);
  await expect(page.locator('body')).toContainText('procedures/broken.yaml', { timeout: 30_000 });
  await expect(page.locator('body')).toContainText(/no stages|at least one stage|stages/i);
  for (const { title } of loft.procedures) await expect(page.locator('body')).toContainText(title);
});

test('storage that is refused stops packing before it begins, and says so', async ({ context, baseURL }) => {
  if (!baseURL || !packer) throw new Error('the kiosk is not served');
  await context.addInitScript(() => {
    Object.defineProperty(window, 'indexedDB', { value: undefined });
  });
  const page = await startPage(context, baseURL);
  const hands = new Hands(page);
  await hands.expectScreen('start');
  await hands.scan(badgeOf(packer));
  await hands.expectScreen('start');
  await expect(page.locator('body')).toContainText(/storage/i);
});
