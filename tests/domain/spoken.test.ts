/** Numbers and letters as words, against the published examples of radiotelephony. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Quantity } from '../../src/domain/quantity';
import { sayDigits, sayNumber, sayQuantity, spellSerial } from '../../src/domain/spoken';

describe('digits, ICAO Annex 10 Vol II 5.2.1.4 (examples as printed there)', () => {
  it.each([
    ['238', 'two three eight'],
    ['080', 'zero eight zero'],
    ['18', 'one eight'],
    ['2400', 'two four zero zero'],
    ['1000', 'one zero zero zero'],
    ['100.3', 'one zero zero decimal three'],
    ['38143.9', 'three eight one four three decimal nine'],
    ['0920', 'zero nine two zero'],
    ['1643', 'one six four three'],
    ['042', 'zero four two'],
  ])('%s is "%s"', (text, words) => {
    expect(sayDigits(text)).toBe(words);
  });

  it('zero is never "oh" (US Navy radiotelephone procedure)', () => {
    expect(sayDigits('0')).toBe('zero');
  });
});

describe('the spelling alphabet, ICAO Annex 10 Vol II 5.2.1.3', () => {
  it('is spelled as the annex spells it: Alfa, Juliett, X-ray', () => {
    expect(spellSerial('ABCDEFGHIJKLMNOPQRSTUVWXYZ')).toBe(
      'Alfa, Bravo, Charlie, Delta, Echo, Foxtrot, Golf, Hotel, India, Juliett, Kilo, Lima, Mike, November, Oscar, ' +
        'Papa, Quebec, Romeo, Sierra, Tango, Uniform, Victor, Whiskey, X-ray, Yankee, Zulu',
    );
  });

  it('spells a serial with single digits and its dashes', () => {
    expect(spellSerial('QHB-2104-017')).toBe(
      'Quebec, Hotel, Bravo, dash, two, one, zero, four, dash, zero, one, seven',
    );
  });

  it('never drops a character, so that no two serials sound alike', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'AB01-./#é') }), (serial) => {
        expect(serial === '' ? 0 : spellSerial(serial).split(', ').length).toBe([...serial].length);
      }),
    );
    expect(spellSerial('A#1')).toBe('Alfa, other character, one');
    expect(spellSerial('A/1_B 2')).toBe('Alfa, slash, one, underscore, Bravo, space, two');
    // Its capital is two letters, and it is neither of them.
    expect(spellSerial('ß')).toBe('other character');
  });
});

describe('cardinal numbers', () => {
  it.each([
    [0, 'zero'],
    [10, 'ten'],
    [13, 'thirteen'],
    [30, 'thirty'],
    [42, 'forty-two'],
    [100, 'one hundred'],
    [112, 'one hundred twelve'],
    // ICAO Annex 10 Vol II 5.2.1.4: whole hundreds and thousands.
    [800, 'eight hundred'],
    [1000, 'one thousand'],
    [2000, 'two thousand'],
    [3400, 'three thousand four hundred'],
    [1001, 'one thousand one'],
    [30.5, 'thirty decimal five'],
    [1.05, 'one decimal zero five'],
    [999_999, 'nine hundred ninety-nine thousand nine hundred ninety-nine'],
  ])('%d is "%s"', (n, words) => {
    expect(sayNumber(n)).toBe(words);
  });

  it('gives every number its own words', () => {
    const words = Array.from({ length: 2000 }, (_, n) => sayNumber(n));
    expect(new Set(words).size).toBe(2000);
  });

  it.each([-1, Number.NaN, 1_000_000])('does not speak %d', (n) => {
    expect(() => sayNumber(n)).toThrow(/Broken assumption: a spoken number lies between zero and a million/);
  });
});

describe('lengths', () => {
  it.each<[Quantity, string]>([
    [{ value: 42, unit: 'in' }, 'forty-two inches'],
    [{ value: 1, unit: 'in' }, 'one inch'],
    [{ value: 1, unit: 'ft' }, 'one foot'],
    [{ value: 3, unit: 'ft' }, 'three feet'],
    [{ value: 1.25, unit: 'in' }, 'one and a quarter inches'],
    [{ value: 1.5, unit: 'in' }, 'one and a half inches'],
    [{ value: 2.75, unit: 'in' }, 'two and three quarters inches'],
    [{ value: 0.5, unit: 'in' }, 'half an inch'],
    [{ value: 0.75, unit: 'in' }, 'three quarters of an inch'],
    [{ value: 0.125, unit: 'in' }, 'an eighth of an inch'],
    [{ value: 0.375, unit: 'in' }, 'three eighths of an inch'],
    [{ value: 0.0625, unit: 'in' }, 'a sixteenth of an inch'],
    [{ value: 0.5, unit: 'ft' }, 'half a foot'],
    [{ value: 1, unit: 'cm' }, 'one centimetre'],
    [{ value: 1, unit: 'mm' }, 'one millimetre'],
    [{ value: 4.4375, unit: 'in' }, 'four and seven sixteenths inches'],
    [{ value: 0, unit: 'in' }, 'zero inches'],
    [{ value: 30.5, unit: 'cm' }, 'thirty decimal five centimetres'],
    [{ value: 0.5, unit: 'cm' }, 'zero decimal five centimetres'],
    [{ value: 7, unit: 'mm' }, 'seven millimetres'],
    [{ value: -2, unit: 'in' }, 'minus two inches'],
  ])('%j is "%s"', (quantity, words) => {
    expect(sayQuantity(quantity)).toBe(words);
  });
});
