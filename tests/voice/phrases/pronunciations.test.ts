/** The recogniser can hear only what it knows how to say. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { ALL, jsgfFor, phraseBook } from './book';

it('every word of the grammars has a pronunciation', () => {
  const known = new Set(
    ['node_modules/soundswallower/model/en-us/dict.txt', 'grammars/pronunciations.txt'].flatMap((file) =>
      readFileSync(file, 'utf8')
        .split('\n')
        .filter((line) => !line.startsWith('#'))
        .map((line) => line.split(' ')[0] ?? ''),
    ),
  );
  expect(jsgfFor(phraseBook(), ALL).words.filter((word) => !known.has(word))).toEqual([]);
});
