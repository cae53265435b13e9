/** Check characters against published values; each row names where it was published. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CODE128_FNC1, CODE128_SWITCH, code128CheckValue, code128Values } from './code128-values';
import type { CodeSet } from './code128-values';
import { code39CheckCharacter, code39CheckFits, isCode39Text } from '../../../src/scan/symbology/code39';
import { mod10CheckDigit, mod10Fits } from '../../../src/scan/symbology/mod10';
import { mod37CheckCharacter, mod37Fits } from '../../../src/scan/symbology/mod37';

describe('Code 39, modulo 43', () => {
  it.each([
    ['123XYZ', 'M', 'published example, sum 108'],
    ['258-416', 'J', 'published example, sum 62'],
    ['ABC1234', '0', 'published example'],
    ['AB', 'L', 'published example'],
    ['123456789', '2', 'published example'],
    ['12345/ABCDE', 'T', 'published example'],
    ['1A', 'B', 'ISO/IEC 16388:2007 figure 1'],
    ['Z1', '-', 'zint backend/tests/test_code.c'],
    ['Z2', '.', 'zint backend/tests/test_code.c'],
    ['Z3', ' ', 'zint backend/tests/test_code.c'],
    ['Z4', '$', 'zint backend/tests/test_code.c'],
    ['Z5', '/', 'zint backend/tests/test_code.c'],
    ['Z6', '+', 'zint backend/tests/test_code.c'],
    ['Z7', '%', 'zint backend/tests/test_code.c'],
    ['123LPJ23', 'X', 'recomputed: a manual that prints Y adds nine values for eight characters'],
  ])('%s has %s (%s)', (text, check) => {
    expect(code39CheckCharacter(text)).toBe(check);
    expect(code39CheckFits(text + check)).toBe(true);
    expect(code39CheckFits(text + (check === 'A' ? 'B' : 'A'))).toBe(false);
  });

  it('does not take text that Code 39 cannot carry', () => {
    expect(isCode39Text('abc')).toBe(false);
    expect(isCode39Text('')).toBe(false);
    expect(code39CheckFits('A')).toBe(false);
    expect(isCode39Text('Ab')).toBe(false);
    expect(isCode39Text('aB')).toBe(false);
    expect(() => code39CheckCharacter('a')).toThrow('only over Code 39 characters');
    expect(() => code39CheckCharacter('')).toThrow('only over Code 39 characters');
  });
});

describe('Code 128, modulo 103', () => {
  const wholeText: readonly (readonly [string, CodeSet, number, string])[] = [
    ['PJJ123C', 'A', 54, 'encyclopaedia article on Code 128, sum 878'],
    ['ABCDEF', 'A', 42, 'barcoderesource.com, sum 866'],
    ['abcdef', 'B', 97, 'barcoderesource.com, sum 1539'],
    ['345678', 'C', 73, 'barcoderesource.com, sum 485'],
    ['AIM', 'B', 45, 'ISO/IEC 15417:2007 figure 1'],
  ];
  it.each(wholeText)('%s in set %s has %i (%s)', (text, set, check) => {
    expect(code128CheckValue(set, code128Values(set, text) ?? [])).toBe(check);
  });

  it('HI345678, changing from set A to C, has 67 (barcodeisland.com, sum 1406)', () => {
    const values = [...(code128Values('A', 'HI') ?? []), CODE128_SWITCH.C, ...(code128Values('C', '345678') ?? [])];
    expect(code128CheckValue('A', values)).toBe(67);
  });

  it.each([
    ['00006141411234567890', 30, 'SSCC of the GS1 General Specifications figures, computed'],
    ['0109501101530003', 71, 'GTIN of the GS1 General Specifications figures, computed'],
  ])('GS1-128 %s has %i (%s)', (data, check) => {
    expect(code128CheckValue('C', [CODE128_FNC1, ...(code128Values('C', data) ?? [])])).toBe(check);
  });

  it('says which text a set cannot carry', () => {
    expect(code128Values('A', 'a')).toBeNull();
    expect(code128Values('B', '\n')).toBeNull();
    expect(code128Values('A', '\n')).toEqual([74]);
    expect(code128Values('C', '123')).toBeNull();
    expect(code128Values('C', '')).toBeNull();
    expect(code128Values('C', '1a')).toBeNull();
    expect(code128Values('C', 'a12')).toBeNull();
    expect(code128Values('C', '12a')).toBeNull();
  });

  it('gives each character the value of its set (ISO/IEC 15417 table 1)', () => {
    expect(code128Values('A', ' _\u0000\u001f')).toEqual([0, 63, 64, 95]);
    expect(code128Values('A', '`')).toBeNull();
    expect(code128Values('B', ' _`\u007f')).toEqual([0, 63, 64, 95]);
    expect(code128Values('B', '\u0080')).toBeNull();
    expect(code128Values('B', '\u001f')).toBeNull();
    expect(code128Values('C', '0099')).toEqual([0, 99]);
    expect(CODE128_SWITCH).toEqual({ A: 101, B: 100, C: 99 });
  });

  it.each([-1, 103])('%i is the value of no character', (value) => {
    expect(() => code128CheckValue('A', [value])).toThrow('a Code 128 data value lies between 0 and 102');
    expect(code128CheckValue('A', [0, 102])).toBe((103 + 2 * 102) % 103);
  });
});

describe('GS1 keys, modulo 10', () => {
  it.each([
    ['629104150021', '3', 'gs1.org'],
    ['730001100001', '7', 'gs1.se'],
    ['890400021003', '7', 'gs1india.org'],
    ['0234567', '3', 'EAN-8'],
    ['211234567890', '0', 'gs1-syntax-engine src/c-lib/scandata.c'],
    ['1234567890123', '1', 'GTIN-14, gs1-syntax-engine src/c-lib/ai.c'],
    ['12345678901234567', '5', 'SSCC, gs1-syntax-engine'],
    ['0950110153000', '3', 'GTIN of the General Specifications figures'],
    ['00614141123456789', '0', 'SSCC of the General Specifications figures'],
    ['39501101530000001', '1', 'SSCC of the General Specifications figures'],
    ['39512345123456789', '5', 'SSCC of the General Specifications figures'],
    ['95011015312345678', '1', 'GSRN of the General Specifications figures'],
    ['541234567890', '8', 'GLN of the General Specifications figures'],
  ])('%s has %s (%s)', (digits, check) => {
    expect(mod10CheckDigit(digits)).toBe(check);
    expect(mod10Fits(digits + check)).toBe(true);
    expect(mod10Fits(digits + String((Number(check) + 1) % 10))).toBe(false);
  });

  it('does not take what is no number', () => {
    expect(mod10Fits('12a4')).toBe(false);
    expect(mod10Fits('0')).toBe(false);
    expect(mod10Fits('x6291041500213')).toBe(false);
    expect(mod10Fits('6291041500213x')).toBe(false);
    for (const none of ['', 'x1', '1x']) {
      expect(() => mod10CheckDigit(none)).toThrow('a GS1 check digit is made only over digits');
    }
  });
});

describe('ISO 7064 MOD 37,2', () => {
  it.each([
    ['G123498654321', 'H', 'UK Blood Transfusion Services, Red Book annex 2, table A2.2 (sum 148354, checksum 17)'],
    ['079', 'T', 'worked by hand: 0*8 + 7*4 + 9*2 = 46, 46 mod 37 = 9, 38 - 9 = 29'],
    ['2', 'Y', 'worked by hand: 2*2 = 4, 38 - 4 = 34'],
    ['1', '*', 'worked by hand: 1*2 = 2, 38 - 2 = 36, which only the star stands for'],
  ])('%s has %s (%s)', (body, check) => {
    expect(mod37CheckCharacter(body)).toBe(check);
  });

  it('does not take what it is not made over', () => {
    for (const none of ['', 'Y', 'a2Y', '-2Y', '2-Y', '2aY', '*Y', '1**']) expect(mod37Fits(none)).toBe(false);
    for (const none of ['a', '*', '2-']) {
      expect(() => mod37CheckCharacter(none)).toThrow('only over digits and capital letters');
    }
  });

  it('lets no changed character and no swapped neighbours through', () => {
    const character = fc.constantFrom(...'0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*');
    const body = fc.string({
      unit: fc.constantFrom(...'0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ'),
      minLength: 2,
      maxLength: 24,
    });
    fc.assert(
      fc.property(body, fc.nat(), character, (text, at, other) => {
        const whole = text + mod37CheckCharacter(text);
        expect(mod37Fits(whole)).toBe(true);
        const place = at % whole.length;
        const changed = whole.slice(0, place) + other + whole.slice(place + 1);
        expect(mod37Fits(changed)).toBe(changed === whole);
        const left = at % (whole.length - 1);
        const swapped = whole.slice(0, left) + whole.charAt(left + 1) + whole.charAt(left) + whole.slice(left + 2);
        expect(mod37Fits(swapped)).toBe(swapped === whole);
      }),
      { numRuns: 2000 },
    );
  });
});
