/** Each application identifier of the table at its longest and one beyond it (GS1 General Specifications section 3). */
import { describe, expect, it } from 'vitest';
import { FNC1, parseElementString } from '../../../src/scan/symbology/gs1';
import { mod10CheckDigit } from '../../../src/scan/symbology/mod10';

function read(data: string): string {
  const parsed = parseElementString(data);
  return parsed.ok ? parsed.value.map(({ ai, value }) => `(${ai})${value}`).join('') : parsed.reason;
}

/** This many digits, the last of them their check digit. */
function keyOf(digits: number): string {
  const body = '9501101530001234567'.slice(0, digits - 1);
  return body + mod10CheckDigit(body);
}

describe('keys of a fixed length with a check digit', () => {
  it.each([
    ['00', 18],
    ['01', 14],
    ['02', 14],
    ['410', 13],
    ['411', 13],
    ['412', 13],
    ['413', 13],
    ['414', 13],
    ['415', 13],
    ['416', 13],
    ['417', 13],
  ])('(%s) has %i digits, and the next element follows at once', (ai, digits) => {
    const value = keyOf(digits);
    expect(read(ai + value)).toBe(`(${ai})${value}`);
    expect(read(`${ai}${value}21X`)).toBe(`(${ai})${value}(21)X`);
    expect(read(ai + value.slice(0, -1))).toBe('gs1-length');
    expect(read(`${ai}${value.slice(0, -1)}${FNC1}21X`)).toBe('gs1-length');
    const wrong = value.slice(0, -1) + String((Number(value.slice(-1)) + 1) % 10);
    expect(read(ai + wrong)).toBe('check-wrong');
    expect(read(`${ai}${value.slice(0, -1)}X`)).toBe('gs1-character');
  });
});

describe('dates', () => {
  it.each(['11', '12', '13', '15', '16', '17'])('(%s) has six digits of a day or of a month', (ai) => {
    expect(read(`${ai}26022821X`)).toBe(`(${ai})260228(21)X`);
    expect(read(`${ai}260200`)).toBe(`(${ai})260200`);
    expect(read(`${ai}261231`)).toBe(`(${ai})261231`);
    expect(read(`${ai}260131`)).toBe(`(${ai})260131`);
    for (const none of ['260001', '261301', '260132', '26013x']) expect(read(ai + none)).toBe('gs1-character');
    expect(read(`${ai}26013`)).toBe('gs1-length');
  });

  it('(20) has two digits, of no date', () => {
    expect(read('209921X')).toBe('(20)99(21)X');
    expect(read('209')).toBe('gs1-length');
    expect(read('209x')).toBe('gs1-character');
  });
});

describe('text up to a length, which the next FNC1 ends', () => {
  it.each([
    ['10', 20],
    ['21', 20],
    ['22', 20],
    ['240', 30],
    ['241', 30],
    ['242', 6],
    ['250', 30],
    ['251', 30],
    ['254', 20],
    ['90', 30],
    ['91', 90],
    ['92', 90],
    ['93', 90],
    ['94', 90],
    ['95', 90],
    ['96', 90],
    ['97', 90],
    ['98', 90],
    ['99', 90],
    ['8002', 20],
    ['8004', 30],
  ])('(%s) has up to %i characters', (ai, most) => {
    const value = 'A'.repeat(most);
    expect(read(ai + value)).toBe(`(${ai})${value}`);
    expect(read(`${ai}1${FNC1}21X`)).toBe(`(${ai})1(21)X`);
    expect(read(`${ai}${value}A`)).toBe('gs1-length');
    expect(read(ai)).toBe('gs1-length');
    expect(read(`${ai}${FNC1}21X`)).toBe('gs1-length');
    expect(read(`${ai}#`)).toBe('gs1-character');
    expect(read(`${ai}A#A`)).toBe('gs1-character');
  });

  it('(8003) has a nought, a key, and up to 16 characters', () => {
    const key = `0${keyOf(13)}`;
    expect(read(`8003${key}${'A'.repeat(16)}`)).toBe(`(8003)${key}${'A'.repeat(16)}`);
    expect(read(`8003${key}${'A'.repeat(17)}`)).toBe('gs1-length');
    expect(read(`8003${key}`)).toBe(`(8003)${key}`);
    expect(read(`8003${key.slice(1)}`)).toBe('gs1-length');
    expect(read(`80031${key.slice(1)}`)).toBe('gs1-character');
  });
});

describe('the 82 characters that an element may have (GS1 General Specifications figure 7.11-1)', () => {
  const allowed = '!"%&\'()*+,-./0123456789:;<=>?ABCDEFGHIJKLMNOPQRSTUVWXYZ_abcdefghijklmnopqrstuvwxyz';
  it('and no others', () => {
    expect(allowed).toHaveLength(82);
    for (let code = 0; code < 256; code += 1) {
      const character = String.fromCharCode(code);
      if (character === FNC1) continue;
      expect([character, read(`21${character}`)]).toEqual([
        character,
        allowed.includes(character) ? `(21)${character}` : 'gs1-character',
      ]);
    }
  });
});
