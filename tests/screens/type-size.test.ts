/**
 * Type is large enough at two metres. Character height h = 2 d tan(angle / 2); 20 to 22 minutes of arc are preferred
 * and 16 are the least (ISO 9241-3); the least holds at the greatest viewing distance (NUREG-0700).
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { FIT_LEVELS } from '../../src/screens/parts/use-fit';

const css = readFileSync(new URL('../../src/screens/styles/tokens.css', import.meta.url), 'utf8');

function heightMm(minutes: number, distanceMm: number): number {
  return 2 * distanceMm * Math.tan(((minutes / 60) * Math.PI) / 180 / 2);
}

/** A 24 inch screen of 16 by 9 is this wide; a hundredth of it is one --u, whatever its pixels. */
const SCREEN_MM = (24 * 25.4 * 16) / Math.hypot(16, 9);
/** Liberation Sans, from its OS/2 table: sCapHeight 1409 and sxHeight 1082 of 2048 units. */
const CAPITAL = 1409 / 2048;
const SMALL = 1082 / 2048;

const rule = (selector: string): string => css.slice(css.indexOf(`${selector} {`)).split('}')[0] ?? '';

/** Factor of a type size at a level of fitting; a level that does not change it keeps that of the root. */
function factor(name: string, level: number): number {
  const find = (text: string): string | undefined => new RegExp(`--${name}: ([0-9.]+);`).exec(text)?.[1];
  const found = (level === 0 ? undefined : find(rule(`[data-fit='${String(level)}']`))) ?? find(rule(':root'));
  return Number(found);
}

const capitalMm = (name: string, level = 0): number => (factor(name, level) / 100) * SCREEN_MM * CAPITAL;

describe('the formula gives the published heights', () => {
  it.each([
    [16, 1000, 4.65],
    [20, 1000, 5.82],
    [22, 1000, 6.4],
    [20, 1500, 8.73],
    [16, 2000, 9.31],
    [20, 2000, 11.64],
    [22, 2000, 12.8],
    [20, 3000, 17.45],
  ])('%d minutes at %d mm', (minutes, distance, height) => {
    expect(heightMm(minutes, distance)).toBeCloseTo(height, 2);
  });
});

describe('at two metres from a 24 inch screen', () => {
  it('the one thing to do has small letters of 12 mm', () => {
    expect((factor('act', 0) / 100) * SCREEN_MM * SMALL).toBeGreaterThanOrEqual(12);
  });

  it('what is to be read has capitals of 20 minutes of arc', () => {
    expect(capitalMm('read')).toBeGreaterThanOrEqual(heightMm(20, 2000));
  });

  it('the smallest type meant for two metres has capitals of 16 minutes', () => {
    expect(capitalMm('least')).toBeGreaterThanOrEqual(heightMm(16, 2000));
  });

  it.each(Array.from({ length: FIT_LEVELS }, (_, level) => level))(
    'the one thing to do keeps 20 minutes at level %d of fitting',
    (level) => {
      expect(capitalMm('act', level)).toBeGreaterThanOrEqual(heightMm(20, 2000));
    },
  );

  it.each([1, 2, 3, 4])('the steps keep 16 minutes at level %d', (level) => {
    expect(capitalMm('read', level)).toBeGreaterThanOrEqual(heightMm(16, 2000));
  });

  it('every level is there, and none is larger than the one before', () => {
    for (const name of ['act', 'read', 'least', 'side']) {
      const sizes = Array.from({ length: FIT_LEVELS }, (_, level) => factor(name, level));
      expect(sizes.every(Number.isFinite)).toBe(true);
      expect([...sizes].sort((a, b) => b - a)).toEqual(sizes);
    }
  });
});

describe('the sizes are used', () => {
  const sheets = ['frame', 'stage', 'hold', 'panels'].map((name) =>
    readFileSync(new URL(`../../src/screens/styles/${name}.css`, import.meta.url), 'utf8'),
  );
  const all = sheets.join('\n');
  const size = (selector: string): string =>
    new RegExp(`(?:^|\\n)${selector} \\{[^}]*font-size: ([^;]+);`).exec(all)?.[1] ?? '';

  it('by what the kiosk says, by the title of a stage, and by its steps', () => {
    expect(size('\\.said')).toBe('var(--type-act)');
    expect(all).toMatch(/\.sheet-stage h1,\n\.sheet-rehearsal h1 \{\n\s*font-size: var\(--type-act\)/);
    expect(size('\\.steps')).toBe('var(--type-read)');
    expect(size('\\.inspect')).toBe('var(--type-least)');
  });

  it('and by the value that is read back, which is larger still', () => {
    expect(size('\\.value-short')).toMatch(/calc\(2\.6 \* var\(--act\)/);
    expect(size('\\.value-long')).toBe('var(--type-act)');
  });
});
