/** What is known beside the legal commands: every other command, none of the legal ones, and numbers of any length. */
import { describe, expect, it } from 'vitest';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { COUNT_NOUNS } from '../../../src/domain/procedure';
import { otherGrammarsFor, othersOf } from '../../../src/voice/near-words';
import { accepts, automatonOf } from '../../../src/voice/web-speech/recognition-automaton';
import { parseJsgf } from '../../../src/voice/web-speech/recognition-jsgf';
import { phraseBook } from '../grammar/book';

describe('the other commands', () => {
  it('and the legal ones are all commands but lengths, each once', () => {
    const legal = { commands: ['affirm', 'negative'], nouns: [] } as const;
    const others = othersOf(legal);
    expect([...others.commands, ...legal.commands, 'measured'].sort()).toEqual([...COMMAND_NAMES].sort());
    expect(others.nouns).toEqual(COUNT_NOUNS);
  });

  it('count the nouns that are not legal', () => {
    const others = othersOf({ commands: ['count'], nouns: ['stows'] });
    expect(others.commands).toContain('count');
    expect(others.nouns).toEqual(COUNT_NOUNS.filter((noun) => noun !== 'stows'));
  });

  it('nouns mean nothing where counting is not legal', () => {
    expect(othersOf({ commands: ['affirm'], nouns: ['stows'] }).nouns).toEqual(COUNT_NOUNS);
  });
});

describe('numbers that are longer than any length', () => {
  const book = phraseBook();
  const isKnown = (texts: readonly string[], words: string): boolean => {
    const grammars = texts.map((text) => parseJsgf(text));
    const automaton = automatonOf(grammars.flatMap((grammar) => (grammar.ok ? [grammar.value] : [])));
    if (!automaton.ok || !grammars.every(({ ok }) => ok)) throw new Error('the grammars cannot be read');
    return accepts(automaton.value, words.split(' '));
  };

  it.each([
    'ten',
    'one five two one seven',
    'fifty six sixty nine',
    'fower niner fife tree',
    'four oh eight zero zero two one',
    'two thousand twelve',
  ])('"%s" is known where a length is wanted', (words) => {
    expect(isKnown(otherGrammarsFor({ commands: ['measured', 'sayAgain'], nouns: [] }, book), words)).toBe(true);
    expect(isKnown(otherGrammarsFor({ commands: ['affirm', 'negative'], nouns: [] }, book), words)).toBe(false);
  });

  it.each([
    ['measured', 'measured four two six one inches'],
    ['measured', 'one five two seven inches'],
    ['measured', 'measured four two six one'],
    ['measured', 'two thousand millimetres'],
    ['count', 'one five two five stows'],
    ['count', 'two thousand stows'],
    ['finding', 'finding three two one four'],
    ['goToStage', 'go to stage one hundred twenty four'],
  ] as const)('where "%s" is legal "%s" is known, and elsewhere it is not', (command, words) => {
    const nouns = command === 'count' ? (['stows'] as const) : [];
    expect(isKnown(otherGrammarsFor({ commands: [command], nouns }, book), words)).toBe(true);
    expect(isKnown(otherGrammarsFor({ commands: ['affirm'], nouns: [] }, book), words)).toBe(false);
  });

  // Else these would stand against the legal numbers that they are near to.
  it.each(['forty two oh inches', 'three zero oh five millimetres', 'four two six inches', 'fower two six one stows'])(
    '"%s" is left to the grammar',
    (words) => {
      const legal = { commands: ['measured', 'count'], nouns: ['stows'] } as const;
      expect(isKnown(otherGrammarsFor(legal, book), words)).toBe(false);
    },
  );

  it('a count of nothing is no number', () => {
    expect(otherGrammarsFor({ commands: ['count'], nouns: [] }, book).length).toBe(1);
  });

  it.each(['four and five', 'four stows and', 'inches'])('"%s" is none', (words) => {
    expect(isKnown(otherGrammarsFor({ commands: ['measured'], nouns: [] }, book), words)).toBe(false);
  });
});
