/** Spoken figures, both ways: whatever the kiosk says of a figure is heard as that figure. */
import { describe, expect, it } from 'vitest';
import type { Unit } from '../../../src/domain/quantity';
import { sayDigits, sayNumber, sayQuantity } from '../../../src/domain/spoken';
import { ALL, phraseBook } from './book';

const book = phraseBook();
const MEASURING = { commands: ['measured'] as const, nouns: [] };

function heard(words: string): readonly [number, Unit | null] | 'none' | 'ambiguous' {
  const understood = book.understand(MEASURING, words);
  if (understood.kind !== 'command') return understood.kind;
  return understood.command.name === 'measured' ? [understood.command.value, understood.command.unit] : 'none';
}

const HUNDREDS = Array.from({ length: 10 }, (_, n) => n * 100);

describe.each(HUNDREDS)('whole numbers from %i', (from) => {
  const numbers = Array.from({ length: 100 }, (_, n) => from + n);

  it('as a phrase', () => {
    for (const n of numbers) expect([n, heard(`measured ${sayNumber(n)}`)]).toEqual([n, [n, null]]);
  });

  it('with "and" after the hundreds', () => {
    for (const n of numbers) {
      const words = sayNumber(n).replace(/hundred (?=.)/, 'hundred and ');
      expect([words, heard(`${words} inches`)]).toEqual([words, [n, 'in']]);
    }
  });

  it('digit by digit', () => {
    for (const n of numbers) expect([n, heard(`measured ${sayDigits(String(n))}`)]).toEqual([n, [n, null]]);
    for (const n of numbers) expect([n, heard(sayDigits(String(n).padStart(3, '0')))]).toEqual([n, [n, null]]);
  });

  it('in radiotelephony words, and with "oh" anywhere but first', () => {
    const words: Readonly<Record<string, string>> = {
      nine: 'niner',
      four: 'fower',
      five: 'fife',
      three: 'tree',
      zero: 'oh',
    };
    for (const n of numbers) {
      const said = sayDigits(String(n).padStart(3, '0')).replace(
        /(?<= )\w+|(?!zero)^\w+/g,
        (word) => words[word] ?? word,
      );
      expect([said, heard(said)]).toEqual([said, [n, null]]);
      expect(heard(said.replace(/^zero/, 'oh'))).toEqual(n < 100 ? 'none' : [n, null]);
    }
  });

  it('as a count', () => {
    for (const n of numbers) {
      const phrase = book.phraseFor({ name: 'count', count: n, noun: 'stows' });
      expect(book.understand(ALL, phrase)).toMatchObject({ command: { name: 'count', count: n, noun: 'stows' } });
    }
  });
});

describe('lengths as they are read back', () => {
  it.each(['in', 'ft'] as const)('sixteenths to 64 %s', (unit) => {
    for (let sixteenths = 0; sixteenths <= 64 * 16; sixteenths += 1) {
      const value = sixteenths / 16;
      const words = sayQuantity({ value, unit });
      expect([words, heard(words)]).toEqual([words, [value, unit]]);
    }
  });

  it.each(['cm', 'mm'] as const)('tenths and hundredths of %s', (unit) => {
    for (let hundredths = 0; hundredths <= 3000; hundredths += 7) {
      const value = hundredths / 100;
      const words = sayQuantity({ value, unit });
      expect([words, heard(words)]).toEqual([words, [value, unit]]);
    }
    for (let tenths = 0; tenths <= 9999; tenths += 37) {
      const value = tenths / 10;
      expect(heard(sayQuantity({ value, unit }))).toEqual([value, unit]);
    }
  });

  it('feet with inches arrive as inches', () => {
    for (let inches = 12; inches < 400; inches += 1) {
      const feet = `${sayNumber(Math.floor(inches / 12))} feet ${sayNumber(inches % 12)} inches`;
      expect([feet, heard(feet)]).toEqual([feet, [inches, 'in']]);
    }
  });
});

describe('published figures', () => {
  it.each([
    // ICAO Annex 10 Vol II 5.2.1.4
    ['two three eight', 238],
    ['zero eight zero', 80],
    ['one eight', 18],
    ['eight hundred', 800],
    ['one zero zero decimal three', 100.3],
    // US Navy radiotelephone procedure (navyaviation.tpub.com 14244, General Procedures)
    ['fower fower', 44],
    ['niner zero', 90],
    ['one tree six', 136],
    ['fife zero zero', 500],
    // The two disagree on 500; both are heard.
    ['five hundred', 500],
  ])('"%s" is %d', (words, value) => {
    expect(heard(words)).toEqual([value, null]);
  });

  it.each([
    // ICAO Annex 10 Vol II 5.2.1.4: sound figures, but beyond anything that is measured on a table.
    'three thousand four hundred',
    'one two thousand',
    'two four zero zero',
    'three eight one four three decimal nine',
  ])('"%s" is not heard: more than 999', (words) => {
    expect(heard(words)).toBe('none');
  });

  it('the kiosk never says "oh" for nought (US Navy radiotelephone procedure)', () => {
    expect(sayDigits('080')).toBe('zero eight zero');
  });
});
