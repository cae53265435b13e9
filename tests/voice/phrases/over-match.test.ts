/** No sentence of one command is a sentence of another, and none means two things: taken over all commands at once. */
import { describe, expect, it } from 'vitest';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { linkGrammar, parseAbnf } from '@stowcall/grammar';
import { matchRule } from '../../speech/grammar/match/match-rule';
import { randomSentence } from '../../speech/grammar/match/random-sentence';
import { ALL, phraseBook, SOURCES } from './book';

const book = phraseBook();
const main = parseAbnf('commands.gram', SOURCES[0]?.text ?? '');
if (!main.ok) throw new Error(main.detail);
const joined = linkGrammar(main.value, (address) => SOURCES.find(({ file }) => file === address)?.text ?? null);
if (!joined.ok) throw new Error(joined.detail);
const grammar = joined.value;

describe.each(COMMAND_NAMES)('%s', (name) => {
  const random = Array.from({ length: 150 }, (_, seed) => randomSentence(grammar, name, seed) ?? '');
  const first = book.allPhrases({ commands: [name], nouns: ALL.nouns }, 60).map(({ phrase }) => phrase);

  it('its sentences are its own alone, with one meaning', () => {
    for (const phrase of new Set([...first, ...random])) {
      expect([phrase, book.understand(ALL, phrase)]).toMatchObject([phrase, { kind: 'command', rule: name }]);
      expect([phrase, matchRule(grammar, name, phrase.split(' '))?.readings.length]).toEqual([phrase, 1]);
    }
  });

  it('what it means can be said back, and means the same', () => {
    for (const phrase of random) {
      const understood = book.understand(ALL, phrase);
      if (understood.kind !== 'command') throw new Error(`"${phrase}" is not understood`);
      const again = book.understand(ALL, book.phraseFor(understood.command));
      expect([phrase, again]).toEqual([phrase, understood]);
    }
  });
});

it('two commands with the same words are told apart by nobody: the book says so', () => {
  const clash = SOURCES.map((source) =>
    source.file === 'commands.gram'
      ? { ...source, text: source.text.replace('= correction {', '= stand by {') }
      : source,
  );
  const loaded = phraseBook(clash);
  expect(loaded.understand(ALL, 'stand by')).toEqual({
    kind: 'ambiguous',
    candidates: [{ name: 'standBy' }, { name: 'correction' }],
  });
});
