/** The code on a printed card: how large it is on paper, and that the kiosk's reader reads it at that size. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { drawCardCode } from '../../../src/kiosk/record/card-code';
import { PASSES } from '../../../src/scan/camera/frame';
import { readFrame } from '../../../src/scan/camera/second-reader';
import { labelPicture } from '../../scan/pictures';
import { startReaderEngine } from '../../scan/reader-engine';

const TEXT = readFileSync(join(import.meta.dirname, '../../../demo-data/exports/card.txt'), 'utf8').trim();
/** As long as the text gets when the proof of a journal of a million facts is at its longest. */
const LONGEST = TEXT + 'A'.repeat(Math.ceil(((20 - 5) * 32 * 8) / 5));

describe('the code of a card', () => {
  it('is a picture that needs no other address, framed in white', async () => {
    const { text, picture, widthMm } = await drawCardCode(TEXT);
    expect(text).toBe(TEXT);
    expect(picture).toMatch(/^data:image\/svg\+xml,/);
    const svg = decodeURIComponent(picture.slice(picture.indexOf(',') + 1));
    const [x, y, width, height] = (/viewBox="([^"]*)"/.exec(svg)?.[1] ?? '').split(' ').map(Number);
    expect([x, y]).toEqual([-8, -8]);
    expect(width).toBe(height);
    expect(widthMm).toBeLessThan(72);
  });

  it('fits an A5 card even with the longest proof', async () => {
    expect((await drawCardCode(LONGEST)).widthMm).toBeLessThan(132);
  });

  it('refuses what no code holds', async () => {
    await expect(drawCardCode('A'.repeat(5_000))).rejects.toBeDefined();
  });
});

describe('the reader', () => {
  beforeAll(startReaderEngine);

  it.each([0, 90, 7])('reads it at 2.5 pixels to a module, turned by %i degrees', async (rotate) => {
    const frame = await labelPicture({ payload: TEXT, symbology: 'qr', width: 640, height: 480, scale: 2.5, rotate });
    const read = new Set<string>();
    for (const pass of PASSES) for (const { payload } of await readFrame(frame, pass)) read.add(payload);
    expect(read).toEqual(new Set([TEXT]));
  });
});
