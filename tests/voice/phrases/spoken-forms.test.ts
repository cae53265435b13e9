/**
 * Every way of saying a figure, as one table: what each form says of a figure is heard as that figure, over the whole
 * range of the form; and what is heard can be said back and is heard as the same.
 */
import { describe, expect, it } from 'vitest';
import type { Command, CommandName } from '../../../src/domain/command';
import { COUNT_NOUNS } from '../../../src/domain/procedure';
import type { Unit } from '../../../src/domain/quantity';
import { sayDigits, sayNumber } from '../../../src/domain/spoken';
import { ALL, phraseBook } from './book';

const book = phraseBook();
const plain = (words: string): string => words.replace(/-/g, ' ');

/** ICAO Annex 10 Vol II 5.2.1.4. */
const RADIO: Readonly<Record<string, string>> = { three: 'tree', four: 'fower', five: 'fife', nine: 'niner' };
const radio = (words: string): string => words.replace(/\b(three|four|five|nine)\b/g, (word) => RADIO[word] ?? word);

/** Forms of a whole number, each for all of 0 to 999. */
const WHOLE: Readonly<Record<string, (n: number) => string>> = {
  'as a phrase': (n) => plain(sayNumber(n)),
  'as a phrase with "and"': (n) => plain(sayNumber(n)).replace(/hundred (?=.)/, 'hundred and '),
  'as a phrase in radio words': (n) => radio(plain(sayNumber(n))),
  'digit by digit': (n) => sayDigits(String(n)),
  'digit by digit in radio words': (n) => radio(sayDigits(String(n))),
  'digit by digit with "oh"': (n) => sayDigits(String(n)).replace(/(?<=\w )zero/g, 'oh'),
};
const WHOLES = Array.from({ length: 1000 }, (_, n) => n);
/** Where a second part goes with each of them in turn: so many that every part meets every kind of number. */
const EVERY_FIFTH = WHOLES.filter((n) => n % 5 === Math.floor(n / 5) % 5);

const UNITS: readonly (readonly [Unit, string, string])[] = [
  ['in', 'inch', 'inches'],
  ['ft', 'foot', 'feet'],
  ['cm', 'centimetre', 'centimetres'],
  ['mm', 'millimetre', 'millimetres'],
];

/** The parts of one in lowest terms and out of them, each in every wording: [words, value]. */
const PARTS: readonly (readonly [string, number])[] = [
  ...(
    [
      ['half', 'a', 2],
      ['quarter', 'a', 4],
      ['eighth', 'an', 8],
      ['sixteenth', 'a', 16],
    ] as const
  ).flatMap(([word, article, under]) =>
    [`${article} ${word}`, `one ${word}`].map((words) => [words, 1 / under] as const),
  ),
  ...(
    [
      ['quarters', 4],
      ['eighths', 8],
      ['sixteenths', 16],
    ] as const
  ).flatMap(([word, under]) =>
    Array.from({ length: under - 2 }, (_, n) => n + 2).flatMap((over) =>
      [sayNumber(over), radio(sayNumber(over))].map((words) => [`${words} ${word}`, over / under] as const),
    ),
  ),
];

function understood(words: string, commands: readonly CommandName[] = ALL.commands): Command | string {
  const read = book.understand({ commands, nouns: ALL.nouns }, words);
  return read.kind === 'command' ? read.command : read.kind;
}

function expectMeasured(words: string, value: number, unit: Unit | null): void {
  expect([words, understood(words, ['measured'])]).toEqual([words, { name: 'measured', value, unit }]);
}

describe.each(Object.entries(WHOLE))('whole numbers %s', (_, say) => {
  it('are heard after "measured"', () => {
    for (const n of WHOLES) expectMeasured(`measured ${say(n)}`, n, null);
  });

  it.each(UNITS)('are heard as %s', (unit, one, many) => {
    for (const n of WHOLES) expectMeasured(`${say(n)} ${n === 1 ? one : many}`, n, unit);
  });

  it('are heard as counts', () => {
    for (const n of WHOLES.slice(2)) {
      const noun = COUNT_NOUNS[n % COUNT_NOUNS.length] ?? 'stows';
      const words = `${say(n)} ${noun}`;
      expect([words, understood(words)]).toEqual([words, { name: 'count', count: n, noun }]);
    }
  });

  it('are heard as findings and stages from 1 to 99', () => {
    for (const n of WHOLES.slice(1, 100)) {
      // Not with "oh": "stage two oh" lies too near to "stage two", and there are few stages from ten on.
      const isKnown = !/\boh\b/.test(say(n));
      expect([n, understood(`finding ${say(n)}`)]).toEqual([n, isKnown ? { name: 'finding', number: n } : 'none']);
      expect([n, understood(`go to stage ${say(n)}`)]).toEqual([n, isKnown ? { name: 'goToStage', stage: n } : 'none']);
      expect([n, understood(`reopen stage ${say(n)}`)]).toEqual([
        n,
        isKnown ? { name: 'reopenStage', stage: n } : 'none',
      ]);
    }
  });
});

describe('one of a kind', () => {
  it.each(COUNT_NOUNS)('of the %s', (noun) => {
    expect(understood(book.phraseFor({ name: 'count', count: 1, noun }))).toEqual({ name: 'count', count: 1, noun });
  });
});

describe('parts of one', () => {
  it.each(PARTS)('"%s"', (words, value) => {
    expectMeasured(words, value, null);
    expectMeasured(`measured ${words}`, value, null);
    for (const [unit, one, many] of UNITS) {
      expectMeasured(`${words} ${many}`, value, unit);
      expectMeasured(`${words} of ${unit === 'in' ? 'an' : 'a'} ${one}`, value, unit);
    }
  });

  it.each(UNITS)('half of one %s without "of"', (unit, one) => {
    expectMeasured(`half ${unit === 'in' ? 'an' : 'a'} ${one}`, 0.5, unit);
  });

  it.each(Object.entries(WHOLE))('after a whole number %s', (_, say) => {
    for (const [index, n] of EVERY_FIFTH.entries()) {
      const [part, value] = PARTS[index % PARTS.length] ?? ['a half', 0.5];
      const [unit, , many] = UNITS[index % UNITS.length] ?? ['in', 'inch', 'inches'];
      expectMeasured(`${say(n)} and ${part}`, n + value, null);
      expectMeasured(`measured ${say(n)} and ${part} ${many}`, n + value, unit);
      expectMeasured(`${say(n)} inches and ${part}`, n + value, 'in');
    }
  });

  it('after an inch', () => {
    for (const [part, value] of PARTS) expectMeasured(`an inch and ${part}`, 1 + value, 'in');
  });
});

describe.each(['decimal', 'point'])('decimals with "%s"', (mark) => {
  const PLACES = [1, 2, 3].flatMap((length) =>
    Array.from({ length: 10 ** length }, (_, n) => String(n).padStart(length, '0')),
  );

  it('alone, to three places', () => {
    for (const places of PLACES) expectMeasured(`${mark} ${sayDigits(places)}`, Number(`0.${places}`), null);
  });

  it('with "oh" and radio words', () => {
    for (const places of PLACES) {
      expectMeasured(`${mark} ${radio(sayDigits(places)).replace(/zero/g, 'oh')}`, Number(`0.${places}`), null);
    }
  });

  it.each(Object.entries(WHOLE))('after a whole number %s', (_, say) => {
    for (const n of EVERY_FIFTH) {
      const places = PLACES[(n * 31) % PLACES.length] ?? '0';
      const [unit, , many] = UNITS[n % UNITS.length] ?? ['in', 'inch', 'inches'];
      expectMeasured(`${say(n)} ${mark} ${sayDigits(places)} ${many}`, Number(`${n}.${places}`), unit);
    }
  });
});

describe('feet and inches', () => {
  it.each(Object.entries(WHOLE))('both %s', (_, say) => {
    for (const n of WHOLES) {
      const [feet, inches] = [Math.floor(n / 12), n % 12];
      const [foot, inch] = [feet === 1 ? 'foot' : 'feet', inches === 1 ? 'inch' : 'inches'];
      expectMeasured(`${say(feet)} ${foot} ${say(inches)} ${inch}`, n, 'in');
      expectMeasured(`measured ${say(feet)} ${foot} and ${say(inches)} ${inch}`, n, 'in');
    }
  });

  it('with a part of an inch, and with decimals', () => {
    for (const [part, value] of PARTS) {
      expectMeasured(`three feet four and ${part} inches`, 40 + value, 'in');
      expectMeasured(`three feet ${part} inches`, 36 + value, 'in');
    }
    expectMeasured('three feet four decimal two five inches', 40.25, 'in');
  });
});
