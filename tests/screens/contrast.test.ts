/**
 * Contrast of the colour tokens. Formula and thresholds: W3C WCAG 2.2, 1.4.3, 1.4.6 and 1.4.11, "relative luminance"
 * with the constant 0.04045; published pairs: W3C ACT rules and WCAG techniques. Never rounded before comparing.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

function channel(hex: string): number {
  const c = Number.parseInt(hex, 16) / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
}

function luminance(colour: string): number {
  const long = colour.length === 4 ? colour.replace(/[0-9a-f]/gi, '$&$&') : colour;
  const [r, g, b] = [1, 3, 5].map((at) => channel(long.slice(at, at + 2)));
  return 0.2126 * (r ?? NaN) + 0.7152 * (g ?? NaN) + 0.0722 * (b ?? NaN);
}

function contrast(one: string, other: string): number {
  const [high, low] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return ((high ?? NaN) + 0.05) / ((low ?? NaN) + 0.05);
}

const css = readFileSync(new URL('../../src/screens/styles/tokens.css', import.meta.url), 'utf8');
const TOKENS = new Map([...css.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g)].map((match) => [match[1], match[2]]));

function token(name: string): string {
  const colour = name.startsWith('#') ? name : TOKENS.get(name);
  if (colour === undefined) throw new Error(`no colour ${name} in tokens.css`);
  return colour;
}

describe('the formula gives the published ratios', () => {
  it.each([
    ['#333333', '#ffffff', 12.6347],
    ['#000000', '#ffffff', 21],
    ['#0000EE', '#ffffff', 9.3976],
    ['#666666', '#ffffff', 5.7418],
    ['#AAAAAA', '#ffffff', 2.3231],
    ['#777777', '#EEEEEE', 3.8597],
    ['#000000', '#777777', 4.6895],
    ['#E3660E', '#ffffff', 3.4019],
    ['#E5E5E5', '#6221EA', 5.6994],
    ['#767676', '#ffffff', 4.5422],
  ])('%s on %s', (one, other, ratio) => {
    expect(contrast(one, other)).toBeCloseTo(ratio, 3);
  });

  it('reads short colours', () => {
    expect(contrast('#333', '#fff')).toBeCloseTo(12.6347, 3);
  });
});

/** Text on what it stands on. All of it keeps the enhanced ratio of 1.4.6: the loft is bright. */
const TEXT: readonly (readonly [string, string])[] = [
  ['ink', 'paper'],
  ['ink', 'sheet'],
  ['ink', 'warn'],
  ['ink', 'answer'],
  ['ink', 'hold-tint'],
  ['ink', 'refuse-tint'],
  ['ink-soft', 'paper'],
  ['ink-soft', 'sheet'],
  ['ink-soft', 'hold-tint'],
  ['on-act', 'act-fill'],
  ['on-refuse', 'refuse'],
  ['on-hold', 'hold'],
  ['refuse', 'paper'],
  ['refuse', 'sheet'],
  ['refuse', 'refuse-tint'],
  ['#ffffff', 'ink'],
  ['#c5ced6', 'ink'],
];

/** Large text (1.4.6 asks 4.5) and everything that is drawn (1.4.11 asks 3). */
const LARGE: readonly (readonly [string, string])[] = [['next', 'sheet']];
const DRAWN: readonly (readonly [string, string])[] = [
  ['edge', 'paper'],
  ['edge', 'sheet'],
  ['pass', 'sheet'],
  ['pass', 'paper'],
  ['next', 'paper'],
  ['act-fill', 'paper'],
  ['act-fill', 'answer'],
  ['hold', 'hold-tint'],
  ['focus-out', 'paper'],
  ['focus-out', 'focus-in'],
  ['focus-in', 'ink'],
  ['focus-in', 'act-fill'],
  ['focus-in', 'refuse'],
];

describe('the colours keep their distance', () => {
  it.each(TEXT)('text: %s on %s has at least 7', (one, other) => {
    expect(contrast(token(one), token(other))).toBeGreaterThanOrEqual(7);
  });
  it.each(LARGE)('large text: %s on %s has at least 4.5', (one, other) => {
    expect(contrast(token(one), token(other))).toBeGreaterThanOrEqual(4.5);
  });
  it.each(DRAWN)('drawn: %s beside %s has at least 3', (one, other) => {
    expect(contrast(token(one), token(other))).toBeGreaterThanOrEqual(3);
  });
});
