/** The camera path in real Chromium: built page, strict headers, real readers, pictures on a canvas as the camera. */
import { expect, test, type Page } from '@playwright/test';
import { emptyPicture, labelPicture, labelPng, type PictureOptions, type Pixels } from '../scan/pictures';
import { encodePng } from '../scan/png';
import { serveHarness, type Harness } from './harness/serve-harness';
import type {} from './harness/main';

let harness: Harness;
test.beforeAll(async () => {
  harness = await serveHarness();
});
test.afterAll(() => harness.close());

const dataUrl = (bytes: Uint8Array): string => `data:image/png;base64,${Buffer.from(bytes).toString('base64')}`;
const label = async (options: PictureOptions): Promise<string> => dataUrl(await labelPng(options));

/** The left half of one picture beside the right half of another. */
function halves(left: Pixels, right: Pixels): Pixels {
  const rgba = left.rgba.slice();
  for (let y = 0; y < left.height; y += 1) {
    const [from, to] = [(y * left.width + left.width / 2) * 4, (y + 1) * left.width * 4];
    rgba.set(right.rgba.subarray(from, to), from);
  }
  return { ...left, rgba };
}

/** The page, started; everything that it complains about is collected. */
async function open(page: Page): Promise<string[]> {
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('request', (request) => {
    const { origin } = new URL(request.url());
    if (origin !== new URL(harness.url).origin && !request.url().startsWith('data:')) complaints.push(request.url());
  });
  await page.goto(harness.url);
  await page.waitForFunction(() => document.title === 'ready');
  return complaints;
}

/** Holds a picture before the camera for so long, or only until it was read. */
const hold = (page: Page, png: string | null, { ms, untilRead }: { ms: number; untilRead: boolean }) =>
  page.evaluate(([picture, limit, early]) => window.cameraHarness.hold(picture, limit, early), [
    png,
    ms,
    untilRead,
  ] as const);

test('a label held before the camera is accepted once, another is accepted, noise and a blurred one are not', async ({
  page,
}) => {
  const complaints = await open(page);
  expect(await page.evaluate(() => window.cameraHarness.start())).toBe('ok');
  const bag = await label({ payload: 'QHB-2104-017', symbology: 'code128', rotate: 12 });
  const canopy = await label({ payload: 'QHC-1907-031', symbology: 'dataMatrix', rotate: 55 });
  const held = await hold(page, bag, { ms: 4000, untilRead: false });
  expect(held.readings).toEqual([{ payload: 'QHB-2104-017', symbology: 'code128', reader: 'camera' }]);
  const changed = await hold(page, canopy, { ms: 4000, untilRead: false });
  expect(changed.readings).toEqual([{ payload: 'QHC-1907-031', symbology: 'dataMatrix', reader: 'camera' }]);
  for (const seed of [1, 2, 3]) {
    const noise = dataUrl(encodePng(await emptyPicture(seed)));
    expect((await hold(page, noise, { ms: 1500, untilRead: false })).readings).toEqual([]);
  }
  const blurred = await label({ payload: 'QHB-2104-017', symbology: 'code39', blur: 5 });
  expect((await hold(page, blurred, { ms: 1500, untilRead: false })).readings).toEqual([]);
  expect(await page.evaluate(() => window.cameraHarness.previewWidth())).toBe(1280);
  expect(await page.evaluate(() => [...window.cameraHarness.troubles])).toEqual([]);
  expect(complaints).toEqual([]);
});

test('it does what every eye must', async ({ page }) => {
  await open(page);
  const pictures = {
    'QHB-2104-017': await label({ payload: 'QHB-2104-017', symbology: 'code128' }),
    'QHC-1907-031': await label({ payload: 'QHC-1907-031', symbology: 'qr' }),
  };
  expect(await page.evaluate((all) => window.cameraHarness.conformance(all), pictures)).toEqual([]);
});

test('two labels side by side: neither is taken until one is aimed at', async ({ page }) => {
  await open(page);
  await page.evaluate(() => window.cameraHarness.start());
  const left = { payload: 'QHB-2104-017', symbology: 'qr', at: [0.35, 0.5], clutter: 0 } as const;
  const [one, other] = [
    await labelPicture(left),
    await labelPicture({ ...left, payload: 'QHC-1907-031', at: [0.65, 0.5] }),
  ];
  const both = dataUrl(encodePng(halves(one, other)));
  expect((await hold(page, both, { ms: 2000, untilRead: false })).readings).toEqual([]);
  expect((await hold(page, dataUrl(encodePng(one)), { ms: 2000, untilRead: true })).readings).toMatchObject([
    { payload: 'QHB-2104-017' },
  ]);
});

test('a camera that is denied, absent or in use is told, and starts once it can be had', async ({ page }) => {
  await open(page);
  const started = (error: string | null): Promise<string> =>
    page.evaluate((name) => {
      window.cameraHarness.fail(name);
      return window.cameraHarness.start();
    }, error);
  expect(await started('NotAllowedError')).toMatch(/^denied: .*Allow it/);
  expect(await started('NotFoundError')).toMatch(/^absent: No camera/);
  expect(await started('OverconstrainedError')).toMatch(/^absent: /);
  expect(await started('NotReadableError')).toMatch(/^absent: .*in use/);
  expect(await started(null)).toBe('ok');
});

test('a camera that is unplugged is told once, and works again after it', async ({ page }) => {
  await open(page);
  const bag = await label({ payload: 'QHB-2104-017', symbology: 'code128' });
  expect(await page.evaluate(() => window.cameraHarness.start())).toBe('ok');
  await page.evaluate(() => window.cameraHarness.unplug());
  expect(await page.evaluate(() => [...window.cameraHarness.troubles])).toEqual([
    'unplugged: The camera was unplugged. Connect it again.',
  ]);
  expect((await hold(page, bag, { ms: 800, untilRead: true })).readings).toEqual([]);
  expect(await page.evaluate(() => window.cameraHarness.start())).toBe('ok');
  expect((await hold(page, bag, { ms: 3000, untilRead: true })).readings).toHaveLength(1);
});

test('a reader engine that cannot be loaded is told, and nothing is accepted', async ({ page }) => {
  const without = await serveHarness(false);
  try {
    await page.goto(without.url);
    await page.waitForFunction(() => document.title === 'ready');
    expect(await page.evaluate(() => window.cameraHarness.start())).toMatch(/^engine: The label reader did not start/);
  } finally {
    await without.close();
  }
});

test('from the first picture of a label to its identity, at any angle', async ({ page }) => {
  test.setTimeout(300_000);
  await open(page);
  await page.evaluate(() => window.cameraHarness.start());
  const kinds = ['code128', 'dataMatrix', 'qr', 'code39'] as const;
  const rows: { symbology: string; rotate: number; ms: number; frames: number }[] = [];
  for (let at = 0; at < Number(process.env['STOWCALL_HOLDS'] ?? 24); at += 1) {
    const symbology = kinds[at % kinds.length] ?? 'qr';
    const rotate = (at * 37) % 180;
    const payload = `QHB-2104-${String(100 + at)}`;
    const picture = await label({ payload, symbology, rotate, scale: 3, seed: at + 1 });
    const before = await page.evaluate(() => window.cameraHarness.frames.length);
    const held = await hold(page, picture, { ms: 20_000, untilRead: true });
    expect(held.readings.map((reading) => reading.payload)).toEqual([payload]);
    const after = await page.evaluate(() => window.cameraHarness.frames.length);
    rows.push({ symbology, rotate, ms: held.ms ?? Number.NaN, frames: after - before });
    await page.waitForTimeout(700);
  }
  const spread = (values: readonly number[]): { p50: number; p95: number } => {
    const sorted = [...values].sort((left, right) => left - right);
    const at = (part: number): number => Math.round(sorted[Math.floor((sorted.length - 1) * part)] ?? Number.NaN);
    return { p50: at(0.5), p95: at(0.95) };
  };
  const took = await page.evaluate(() =>
    window.cameraHarness.frames.map(({ firstTookMs, secondTookMs }) => [firstTookMs, secondTookMs] as const),
  );
  const frames = spread(rows.map((row) => row.frames));
  console.log(
    JSON.stringify({
      held: rows.length,
      acceptedMs: spread(rows.map(({ ms }) => ms)),
      frames,
      firstReaderMs: spread(took.map(([first]) => first)),
      decidingReaderMs: spread(took.map(([, second]) => second)),
    }),
  );
  // One frame under way when the label came, one smeared, a turn of five views, two more that agree, and some room for
  // angles between two views. A hand's tremble may cost one label another turn, so the 95th of 100 is judged. How long
  // that takes depends on what else the machine does: time is told, not judged.
  expect(frames.p95, JSON.stringify(rows)).toBeLessThanOrEqual(12);
});
