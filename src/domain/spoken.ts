/** Numbers, lengths and serials as words, so that no voice has to guess how a figure is said. */
import { assert } from './assert';
import type { Quantity, Unit } from './quantity';
import { forPeople, mixedNumber } from './quantity';

const SMALL =
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(
    ' ',
  );
const TENS = 'twenty thirty forty fifty sixty seventy eighty ninety'.split(' ');

/** ICAO Annex 10 Vol II 5.2.1.3: the words as they are spelled there. */
const ALPHABET = (
  'Alfa Bravo Charlie Delta Echo Foxtrot Golf Hotel India Juliett Kilo Lima Mike November Oscar Papa Quebec ' +
  'Romeo Sierra Tango Uniform Victor Whiskey X-ray Yankee Zulu'
).split(' ');

const SIGNS: Readonly<Record<string, string>> = {
  '-': 'dash',
  '.': 'decimal',
  '/': 'slash',
  _: 'underscore',
  ' ': 'space',
};

const UNIT_WORDS: Readonly<Record<Unit, { readonly one: string; readonly many: string; readonly part: string }>> = {
  in: { one: 'inch', many: 'inches', part: 'an inch' },
  ft: { one: 'foot', many: 'feet', part: 'a foot' },
  cm: { one: 'centimetre', many: 'centimetres', part: 'a centimetre' },
  mm: { one: 'millimetre', many: 'millimetres', part: 'a millimetre' },
};

function wordOf(words: readonly string[], index: number): string {
  const word = words[index];
  assert(word !== undefined, `there is a word at ${String(index)}`);
  return word;
}

/** Below a thousand. No "and" between hundreds and tens: that word is kept for fractions. */
function sayHundreds(n: number): string {
  if (n < 20) return wordOf(SMALL, n);
  if (n < 100)
    return [wordOf(TENS, Math.floor(n / 10) - 2), ...(n % 10 === 0 ? [] : [wordOf(SMALL, n % 10)])].join('-');
  const hundreds = `${wordOf(SMALL, Math.floor(n / 100))} hundred`;
  return n % 100 === 0 ? hundreds : `${hundreds} ${sayHundreds(n % 100)}`;
}

/**
 * Cardinal words for 0 up to 999,999: "thirty-seven". A decimal part is read digit by digit after "decimal"
 * (ICAO Annex 10 Vol II 5.2.1.4): "thirty decimal five".
 */
export function sayNumber(n: number): string {
  assert(n >= 0 && n < 1_000_000, 'a spoken number lies between zero and a million');
  const rounded = forPeople(n);
  const whole = Math.floor(rounded);
  if (rounded !== whole) return `${sayNumber(whole)} decimal ${sayDigits(String(rounded).split('.')[1] ?? '')}`;
  if (whole < 1000) return sayHundreds(whole);
  const thousands = `${sayHundreds(Math.floor(whole / 1000))} thousand`;
  return whole % 1000 === 0 ? thousands : `${thousands} ${sayHundreds(whole % 1000)}`;
}

/** One character. An unknown one is named as such and never dropped: two serials must not sound the same. */
function sayCharacter(character: string): string {
  if (/^[0-9]$/.test(character)) return wordOf(SMALL, Number(character));
  const letter = character.toUpperCase();
  if (/^[A-Z]$/.test(letter)) return wordOf(ALPHABET, letter.charCodeAt(0) - 'A'.charCodeAt(0));
  return SIGNS[character] ?? 'other character';
}

/** Every digit singly: "042" is "zero four two", "100.3" is "one zero zero decimal three" (Annex 10 5.2.1.4). */
export function sayDigits(text: string): string {
  return [...text].map(sayCharacter).join(' ');
}

/** A serial, character by character, with commas so that the voice pauses: "Quebec, dash, zero, four". */
export function spellSerial(text: string): string {
  return [...text].map(sayCharacter).join(', ');
}

const PART_WORDS: Readonly<Record<number, readonly [string, string]>> = {
  2: ['half', 'halves'],
  4: ['quarter', 'quarters'],
  8: ['eighth', 'eighths'],
  16: ['sixteenth', 'sixteenths'],
};

function sayFraction(over: number, under: number): string {
  const words = PART_WORDS[under];
  assert(words !== undefined, 'fractions are halves to sixteenths');
  if (over === 1) return `${under === 8 ? 'an' : 'a'} ${words[0]}`;
  return `${sayNumber(over)} ${words[1]}`;
}

/** "thirty-seven inches", "one and a quarter inches", "half an inch", "thirty decimal five centimetres". */
export function sayQuantity(quantity: Quantity): string {
  const { one, many, part } = UNIT_WORDS[quantity.unit];
  const sign = quantity.value < 0 ? 'minus ' : '';
  const mixed = mixedNumber(quantity);
  if (mixed === null) return `${sign}${sayNumber(Math.abs(quantity.value))} ${many}`;
  const { whole, fraction } = mixed;
  if (fraction === null) return `${sign}${sayNumber(whole)} ${whole === 1 ? one : many}`;
  const words = sayFraction(fraction.over, fraction.under);
  if (whole > 0) return `${sign}${sayNumber(whole)} and ${words} ${many}`;
  return `${sign}${fraction.under === 2 ? `half ${part}` : `${words} of ${part}`}`;
}
