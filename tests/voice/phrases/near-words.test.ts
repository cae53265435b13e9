/** What is known beside the legal commands: every other command, none of the legal ones; and numbers of any length. */
import { describe, expect, it } from 'vitest';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { COUNT_NOUNS } from '../../../src/domain/procedure';
import { rivalsFor } from '../../../src/voice/phrases/listen-for';
import { othersOf } from '../../../src/voice/phrases/near-words';
import type { Phrases } from '@stowcall/web-speech/core';
import { accepts, automatonOf } from '@stowcall/web-speech/core';
import { parseJsgf } from '@stowcall/grammar';
import { jsgfFor, phraseBook } from './book';

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

describe('numbers of any length', () => {
  const book = phraseBook();
  const known = (phrases: Phrases | null) => {
    const automaton = automatonOf(phrases === null ? [] : [phrases]);
    if (!automaton.ok) throw new Error(automaton.detail);
    return automaton.value;
  };
  const inJsgf = (text: string): Phrases => {
    const grammar = parseJsgf(text);
    if (!grammar.ok) throw new Error(grammar.detail);
    return grammar.value;
  };

  it.each([
    ['measured', 'ten'],
    ['measured', 'one five two one seven'],
    ['measured', 'fifty six sixty nine'],
    ['measured', 'fower niner fife tree'],
    ['measured', 'four oh eight zero zero two one'],
    ['measured', 'two thousand twelve'],
    ['measured', 'measured four two six one inches'],
    ['measured', 'one five two seven inches'],
    ['measured', 'measured four two six one'],
    ['measured', 'two thousand millimetres'],
    ['count', 'one five two five stows'],
    ['count', 'two thousand stows'],
    ['finding', 'finding three two one four'],
    ['goToStage', 'go to stage one hundred twenty four'],
    ['reopenStage', 'reopen stage one hundred twenty four'],
  ] as const)('where "%s" is legal "%s" is known, and elsewhere it is not', (command, words) => {
    const nouns = command === 'count' ? (['stows'] as const) : [];
    expect(accepts(known(rivalsFor({ commands: [command, 'sayAgain'], nouns }, book)), words.split(' '))).toBe(true);
    expect(rivalsFor({ commands: ['affirm', 'negative'], nouns: ['stows'] }, book)).toBeNull();
  });

  // Else these would stand against the legal numbers that they are near to.
  it.each(['fower two six one stows', 'three oh five two stows', 'finding tree'])('"%s" is none', (words) => {
    const legal = { commands: ['measured', 'count', 'finding'], nouns: ['stows'] } as const;
    expect(accepts(known(rivalsFor(legal, book)), words.split(' '))).toBe(false);
  });

  it('rare words are dear in them, as they are in the grammar', () => {
    const legal = { commands: ['measured'], nouns: [] } as const;
    const { costs } = known(rivalsFor(legal, book));
    expect([...costs.keys()].sort()).toEqual(['fife', 'fower', 'niner', 'oh', 'tree']);
    expect([...known(inJsgf(jsgfFor(book, legal).jsgf)).costs].sort()).toEqual([...costs].sort());
  });

  it('a count of nothing is no number', () => {
    expect(rivalsFor({ commands: ['count'], nouns: [] }, book)).toBeNull();
  });

  it.each(['four and five', 'four stows and', 'inches'])('"%s" is none', (words) => {
    expect(accepts(known(rivalsFor({ commands: ['measured'], nouns: [] }, book)), words.split(' '))).toBe(false);
  });
});
