/** Screenshots as WebP, written by Chromium itself: a third of the size of the same picture as PNG. */
import type { BrowserContext } from '@playwright/test';

/** Letters stay sharp at this quality, and a whole screen takes about 60 kB. */
const QUALITY = 0.45;

/** Turns each PNG into a WebP of the same size, in a page of its own. */
export async function webpOf(context: BrowserContext, shots: readonly Buffer[]): Promise<readonly Buffer[]> {
  const page = await context.newPage();
  const made: Buffer[] = [];
  for (const png of shots) {
    const data = await page.evaluate(encode, { source: png.toString('base64'), quality: QUALITY });
    made.push(Buffer.from(data, 'base64'));
  }
  await page.close();
  return made;
}

/** Runs in the page. */
async function encode({ source, quality }: { readonly source: string; readonly quality: number }): Promise<string> {
  const image = new Image();
  image.src = `data:image/png;base64,${source}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = image.width;
  canvas.height = image.height;
  canvas.getContext('2d')?.drawImage(image, 0, 0);
  return canvas.toDataURL('image/webp', quality).replace(/^.*,/, '');
}
