/** Reads pronunciation dictionaries: as a list for a recogniser, or by word for comparing phrases. */
import { ok, refused } from '../result';
import type { Result } from '../result';
import { isPhone } from './phone';

/** An entry as a recogniser's dictionary has it: `inches(2)` is a further pronunciation of "inches". */
export type Pronunciation = readonly [word: string, phones: string];

export type Phones = readonly string[];

/** For each word its pronunciation variants. */
export type Pronunciations = ReadonlyMap<string, readonly Phones[]>;

/**
 * Reads dictionaries: one word and its phones on a line, `word(2)` for a further pronunciation, `#` or `;;` for a comment
 * line. Later texts add to earlier ones. Refusal `bad-pronunciation`: the line, and what is wrong with it.
 */
export function parsePronunciations(
  ...texts: readonly string[]
): Result<readonly Pronunciation[], 'bad-pronunciation'> {
  const found: Pronunciation[] = [];
  for (const text of texts) {
    for (const [at, line] of text.split(/\r?\n/).entries()) {
      const [word = '', ...phones] = line.trim().split(/\s+/);
      if (word === '' || /^(#|;;)/.test(word)) continue;
      const unknown = phones.find((phone) => !isPhone(phone));
      if (phones.length === 0 || unknown !== undefined) {
        const what = unknown === undefined ? 'no phones' : `"${unknown}", which is no phone`;
        return refused('bad-pronunciation', `Line ${at + 1}, "${word}", has ${what}; correct it.`);
      }
      found.push([word, phones.join(' ')]);
    }
  }
  return ok(found);
}

/** The same by word, with the number of each further pronunciation taken off. */
export function pronunciationsByWord(list: readonly Pronunciation[]): Pronunciations {
  const words = new Map<string, Phones[]>();
  for (const [entry, phones] of list) {
    const word = entry.replace(/\(\d+\)$/, '');
    const variants = words.get(word) ?? [];
    variants.push(phones.split(' '));
    words.set(word, variants);
  }
  return words;
}
