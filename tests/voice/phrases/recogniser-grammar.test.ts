/** The commands written as JSGF accept exactly what the phrase book understands, and nothing that is not legal now. */
import { expect, it } from 'vitest';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { generateSentences, linkGrammar, parseAbnf } from '@stowcall/grammar';
import { readJsgf } from '../../speech/grammar/jsgf/read-jsgf';
import { matchRule } from '../../speech/grammar/match/match-rule';
import { randomSentence } from '../../speech/grammar/match/random-sentence';
import { ALL, jsgfFor, phraseBook, SOURCES } from './book';

it('for every command of ours', () => {
  const book = phraseBook();
  const main = parseAbnf('commands.gram', SOURCES[0]?.text ?? '');
  if (!main.ok) throw new Error(main.detail);
  const joined = linkGrammar(main.value, (address) => SOURCES.find(({ file }) => file === address)?.text ?? null);
  if (!joined.ok) throw new Error(joined.detail);
  for (const name of COMMAND_NAMES) {
    const vocabulary = { commands: [name], nouns: ALL.nouns };
    const back = readJsgf(jsgfFor(book, vocabulary, null).jsgf);
    for (let seed = 0; seed < 30; seed += 1) {
      const said = randomSentence(joined.value, name, seed) ?? '';
      expect([said, matchRule(back, 'utterance', said.split(' '))]).not.toEqual([said, null]);
      const heard = randomSentence(back, 'utterance', seed) ?? '';
      expect([heard, book.understand(vocabulary, heard).kind]).toEqual([heard, 'command']);
    }
  }
});

it('where nothing is legal only the loop can be heard', () => {
  const book = phraseBook();
  const back = readJsgf(
    jsgfFor(book, { commands: [], nouns: [] }, { phones: ['AA'], weight: 0.5, wordOf: () => 'ph_aa' }).jsgf,
  );
  expect(matchRule(back, 'utterance', ['ph_aa', 'ph_aa'])).not.toBeNull();
  expect(generateSentences(back, 'command', 5)).toEqual([]);
});
