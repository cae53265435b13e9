/** Reads the list of pronunciations that the recogniser's dictionary lacks. */
import { assert } from '../assert';
import { PHONES } from './phone';

export type Pronunciation = readonly [word: string, phones: string];

/** Lines of `word PHONE PHONE ...`; `#` begins a comment line. Broken lines are defects of ours. */
export function parsePronunciations(text: string): readonly Pronunciation[] {
  return text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line): Pronunciation => {
      const [word = '', ...phones] = line.split(/\s+/);
      assert(phones.length > 0, `"${word}" has a pronunciation`);
      const unknown = phones.find((phone) => !PHONES.includes(phone));
      assert(unknown === undefined, `"${word}" is made of known phones, not ${unknown ?? ''}`);
      return [word, phones.join(' ')];
    });
}
