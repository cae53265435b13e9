/** The printed sheets: every code on them is read by the reader at 30 cm and means what is printed beside it. */
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { readFrame } from '../../../src/scan/camera/second-reader';
import type { Frame } from '../../../src/scan/camera/frame';
import { understandPayload } from '../../../src/scan/symbology/understand-payload';
import { DEMO_NOTICE } from '../../../src/tools/labels/sheet';
import { runLabels } from '../../../src/tools/commands/labels';
import { startReaderEngine } from '../../scan/reader-engine';
import { hearConsole } from './said';

const out = mkdtempSync(join(tmpdir(), 'stowcall-labels-'));
const SHEETS = ['components.html', 'badges.html', 'command-card.html'] as const;
let said: string[] = [];

beforeAll(async () => {
  await startReaderEngine();
  said = hearConsole();
  expect(await runLabels(['--loft', 'demo-data', '--out', out])).toBe(0);
});
afterAll(() => {
  rmSync(out, { recursive: true });
  vi.restoreAllMocks();
});

const sheet = (file: string): string => readFileSync(join(out, file), 'utf8');
const itemsOf = (file: string): string[] => sheet(file).split('<div class="item"').slice(1);
const textOf = (item: string): string => item.replace(/<svg.*?<\/svg>/g, ' ').replace(/<[^>]*>/g, ' ');

/** Pixels to the millimetre of a camera 30 cm away: see the widths of modules. */
const PER_MM = 3.3;

/** A frame in which one printed code lies on a grey table, three samples a pixel both ways. */
function frameOf(svg: string): Frame {
  const number = (pattern: RegExp): number => Number(pattern.exec(svg)?.[1]);
  const [wide, high, thick] = [
    number(/width="([\d.]+)mm"/),
    number(/height="([\d.]+)mm"/),
    number(/stroke-width="([\d.]+)"/),
  ];
  const strokes = [...svg.matchAll(/M([\d.]+) ([\d.]+)h([\d.]+)/g)].map((match) => match.slice(1).map(Number));
  const [width, height] = [640, 240];
  const sum = new Float32Array(width * height);
  const fill = ([left, top, w, h]: readonly [number, number, number, number], by: number): void => {
    // Areas in thirds of a pixel, so that edges fall between pixels as they do for a camera.
    const third = (mm: number): number => Math.round(mm * PER_MM * 3);
    for (let y = third(top); y < third(top + h); y += 1) {
      for (let x = third(left); x < third(left + w); x += 1) {
        const at = (Math.floor(y / 3) + 60) * width + Math.floor(x / 3) + 40;
        sum[at] = (sum[at] ?? 0) + by;
      }
    }
  };
  fill([0, 0, wide, high], 100 / 9);
  for (const [left = 0, middle = 0, length = 0] of strokes) fill([left, middle - thick / 2, length, thick], -180 / 9);
  const rgba = new Uint8ClampedArray(width * height * 4);
  for (let at = 0; at < sum.length; at += 1)
    rgba.set([130 + (sum[at] ?? 0), 130 + (sum[at] ?? 0), 130 + (sum[at] ?? 0), 255], at * 4);
  return { width, height, rgba };
}

async function readAll(item: string): Promise<string[]> {
  const payloads: string[] = [];
  for (const [svg] of item.matchAll(/<svg.*?<\/svg>/g)) {
    const readings = await readFrame(frameOf(svg), 'plain');
    payloads.push(readings.map((reading) => reading.payload).join('+') || 'not read');
  }
  return payloads;
}

/** The demonstration's files in which no procedure says that it is one. */
async function sheetsOfOwnLoft(): Promise<readonly string[]> {
  const folder = mkdtempSync(join(tmpdir(), 'stowcall-own-'));
  cpSync('demo-data', folder, { recursive: true, filter: (path) => !/exports|pictures|labels/.test(path) });
  for (const name of readdirSync(join(folder, 'procedures'))) {
    const path = join(folder, 'procedures', name);
    writeFileSync(path, readFileSync(path, 'utf8').replace('demonstration: true', 'demonstration: false'));
  }
  const to = join(folder, 'labels');
  expect(await runLabels(['--loft', folder, '--out', to])).toBe(0);
  const texts = SHEETS.map((file) => readFileSync(join(to, file), 'utf8'));
  rmSync(folder, { recursive: true });
  said.splice(SHEETS.length);
  return texts;
}

describe('the sheets', () => {
  it('say nothing of a demonstration in a loft that packs by its own procedures', async () => {
    for (const text of await sheetsOfOwnLoft()) expect(text).not.toMatch(/demonstration|invented|must not be used/i);
  });

  it('say so on each component label, for labels are cut apart', () => {
    const items = itemsOf('components.html');
    expect(items.length).toBeGreaterThan(0);
    for (const item of items) expect(textOf(item)).toContain('Demonstration only, not to be packed for use');
  });

  it('carry the notice on every page', () => {
    for (const file of SHEETS) {
      const pages = sheet(file).split('<section class="page">').slice(1);
      expect(pages.length).toBeGreaterThan(0);
      for (const page of pages) expect(page).toContain(DEMO_NOTICE);
    }
    expect(said).toEqual(SHEETS.map((file) => join(out, file)));
  });

  it('are the ones that the demonstration loft comes with', () => {
    for (const file of SHEETS) expect(sheet(file)).toBe(readFileSync(join('demo-data/labels', file), 'utf8'));
  });

  it('have component labels whose both codes say the printed serial', async () => {
    const items = itemsOf('components.html');
    expect(items.length).toBeGreaterThanOrEqual(18);
    for (const item of items.filter((one) => !one.includes('item identifier'))) {
      const serial = /class="serial">([^<]*)</.exec(item)?.[1] ?? '';
      expect(await readAll(item)).toEqual([serial, serial]);
      expect(understandPayload({ payload: serial, symbology: 'code128' })).toEqual({ kind: 'component', serial });
    }
  });

  it('have a mark for each item identifier, which names the same component as the old label', async () => {
    const items = itemsOf('components.html').filter((one) => one.includes('item identifier'));
    expect(items.length).toBeGreaterThan(0);
    for (const item of items) {
      const uii = /class="serial">([^<]*)</.exec(item)?.[1] ?? '';
      const [payload = ''] = await readAll(item);
      expect(understandPayload({ payload, symbology: 'dataMatrix' })).toEqual({
        ...{ kind: 'component', uii, serial: 'QHB-2104-017' },
      });
    }
  });

  it('have badges that are badges', async () => {
    const items = itemsOf('badges.html');
    expect(items.length).toBeGreaterThanOrEqual(10);
    for (const item of items) {
      const [payload = ''] = await readAll(item);
      expect(understandPayload({ payload, symbology: 'qr' }).kind).toBe('badge');
      // The identifier is not printed: it is not to be read by eye.
      expect(textOf(item)).not.toContain(payload.slice(2, 18));
    }
  });

  it('have a card for every command but a measured value', async () => {
    const items = itemsOf('command-card.html');
    const names = new Set<string>();
    for (const item of items) {
      const [payload = ''] = await readAll(item);
      const meaning = understandPayload({ payload, symbology: 'qr' });
      expect(meaning.kind).toBe('command');
      if (meaning.kind === 'command') names.add(meaning.command.name);
      expect(textOf(item)).toMatch(/[a-z]/);
    }
    expect([...names].sort()).toEqual(COMMAND_NAMES.filter((name) => name !== 'measured').sort());
  });
});

describe('a wrong call', () => {
  it('says how it is done', async () => {
    expect(await runLabels(['--nonsense'])).toBe(2);
    expect(said.at(-1)).toContain('Usage: labels');
    expect(await runLabels(['--loft', '/does/not/exist'])).toBe(2);
  });

  it('tells what is wrong with the loft, and writes nothing', async () => {
    const broken = join(out, 'broken');
    mkdirSync(broken);
    writeFileSync(join(broken, 'people.yaml'), 'people: 7\n');
    expect(await runLabels(['--loft', broken, '--out', join(broken, 'labels')])).toBe(1);
    expect(said.some((text) => /people\.yaml:\d+: /.test(text))).toBe(true);
    expect(() => readFileSync(join(broken, 'labels/badges.html'))).toThrow();
  });
});
