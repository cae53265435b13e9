/** Which quantities the bench puts together: each form of the number grammar that the recorded words can say. */
import { sayDigits, sayNumber } from '../../../src/domain/spoken';

export interface Quantity {
  readonly form: string;
  readonly words: readonly string[];
}

type Chance = () => number;

const RADIO: Readonly<Record<string, string>> = { nine: 'niner' };

const FORMS: Readonly<Record<string, (chance: Chance) => string>> = {
  'two digits': (chance) => sayDigits(String(from(chance, 10, 99))),
  'three digits': (chance) => sayDigits(String(from(chance, 100, 999))),
  'three digits, "oh" for nought': (chance) =>
    sayDigits(`${from(chance, 1, 9)}0${from(chance, 1, 9)}`).replace('zero', 'oh'),
  'three digits, "niner" for nine': (chance) =>
    sayDigits(`${from(chance, 1, 9)}9${from(chance, 0, 9)}`).replace(/nine/g, (word) => RADIO[word] ?? word),
  'tens and units': (chance) => sayNumber(10 * from(chance, 2, 9) + from(chance, 1, 9)),
  hundreds: (chance) => sayNumber(from(chance, 100, 999)),
  'hundreds with "and"': (chance) => {
    const hundreds = 100 * from(chance, 1, 9);
    return `${sayNumber(hundreds)} and ${sayNumber(from(chance, 1, 99))}`;
  },
  'a whole number and an eighth or sixteenth': (chance) =>
    `${sayNumber(from(chance, 1, 99))} and one ${chance() < 0.5 ? 'eighth' : 'sixteenth'}`,
};

/** `each` quantities of every form, by chance from a seed, the same every time. */
export function quantitiesOf(each: number, seed: number): readonly Quantity[] {
  const chance = chances(seed);
  return Object.entries(FORMS).flatMap(([form, make]) =>
    Array.from({ length: each }, () => ({ form, words: make(chance).replace(/-/g, ' ').split(' ') })),
  );
}

function from(chance: Chance, least: number, most: number): number {
  return least + Math.floor(chance() * (most - least + 1));
}

/** Numbers from 0 to 1 (mulberry32). */
export function chances(seed: number): Chance {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}
