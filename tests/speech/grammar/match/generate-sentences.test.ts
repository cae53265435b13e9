/** Sentences made from rules: bounded, all different, and sentences of the rule. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { matchRule } from './match-rule';
import { generateSentences } from '../../../../src/speech/grammar/match/generate-sentences';
import { randomSentence } from './random-sentence';
import { rules } from '../linked';

describe('all sentences', () => {
  it.each([
    ['branches take turns', '$r = (a | b) (c | d) | e;', 10, ['a c', 'e', 'a d', 'b c', 'b d']],
    ['optional words are left out first', '$r = a [b];', 10, ['a', 'a b']],
    ['each but once', '$r = a | a | b;', 10, ['a', 'b']],
    ['no more than asked for', '$r = a | b | c;', 2, ['a', 'b']],
    ['unbounded repeats a few turns', '$r = a<1->;', 10, ['a', 'a a', 'a a a']],
    ['what cannot be said is left out', '$r = a | $VOID | $VOID b;', 10, ['a']],
    ['a rule that leads only to itself', '$r = $r;', 10, []],
    ['no such rule', '$x = a;', 10, []],
    ['nothing is a sentence too', '$r = [a];', 10, ['', 'a']],
  ])('%s', (...[, text, limit, expected]) => {
    expect(generateSentences(rules(text), 'r', limit)).toEqual(expected);
  });

  it('ends on recursion', () => {
    expect(generateSentences(rules('$r = a $r | b;'), 'r', 5)).toHaveLength(5);
  });

  it.each([
    '$r = $r $r | $r $r $r | a;',
    `$r = ${'[a] '.repeat(40)};`,
    '$r = ((([a])<0->)<0->)<0->;',
    '$r = {x}<9999>;',
  ])('ends on hostile %s', (text) => {
    const grammar = rules(text);
    const found = generateSentences(grammar, 'r', 20);
    expect(found.length).toBeLessThanOrEqual(20);
  });
});

describe('sentences by chance', () => {
  const grammars = fc.constantFrom(
    '$r = a (b | c)<0-> [d];',
    '$r = a $r | b $s; $s = c | [d] $r e;',
    '$r = $r a | b;',
    '$r = $VOID | (a | b c)<2-4>;',
  );
  it('are sentences of the rule, and the same again for the same seed', () => {
    fc.assert(
      fc.property(grammars, fc.nat(), (text, seed) => {
        const grammar = rules(text);
        const said = randomSentence(grammar, 'r', seed);
        expect(said).not.toBeNull();
        expect(randomSentence(grammar, 'r', seed)).toBe(said);
        expect(matchRule(grammar, 'r', (said ?? '').split(' '))).not.toBeNull();
      }),
    );
  });

  it('differ between seeds', () => {
    const grammar = rules('$r = (a | b | c)<5>;');
    const said = new Set(Array.from({ length: 100 }, (_, seed) => randomSentence(grammar, 'r', seed)));
    expect(said.size).toBeGreaterThan(50);
  });

  it.each([
    ['no such rule', '$x = a;'],
    ['void', '$r = $VOID;'],
    ['a rule that leads only to itself', '$r = a $r;'],
  ])('none where none can be said: %s', (...[, text]) => {
    expect(randomSentence(rules(text), 'r', 1)).toBeNull();
  });
});

describe('sentences to the letter', () => {
  it.each<[string, number, string[]]>([
    ['a<2->', 9, ['a a', 'a a a', 'a a a a']],
    ['a<0-1>', 9, ['', 'a']],
    ['a<0-9>', 9, ['', 'a', 'a a']],
    ['a<3-4>', 9, ['a a a', 'a a a a']],
    ['a<0>', 9, ['']],
    ['(a | b)<2>', 9, ['a a', 'a b', 'b a', 'b b']],
    ['a $GARBAGE {x} ()', 9, ['a']],
    ['a | b c | [d]', 9, ['a', 'b c', '', 'd']],
    ['"a b" c', 9, ['a b c']],
    ['(a | b | c) | (d | e)', 9, ['a', 'd', 'b', 'e', 'c']],
    ['a | b', 0, ['a']],
    ['a | b', 1, ['a']],
  ])('%s, at most %d', (text, limit, expected) => {
    expect(generateSentences(rules(`$r = ${text};`), 'r', limit)).toEqual(expected);
  });

  it('of a hundred words are made, and no longer ones', () => {
    const longest = (text: string) =>
      Math.max(...generateSentences(rules(`$r = ${text};`), 'r', 5).map((said) => said.split(' ').length));
    expect(longest('a<90>')).toBe(90);
    expect(longest('a<150>')).toBe(100);
  });

  it('by chance are the same in every version: other tests name them by their number', () => {
    const grammar = rules('$r = (a | b | c) (d)<0-3> [e] ($r | f);');
    expect([0, 1, 2, 3].map((seed) => randomSentence(grammar, 'r', seed))).toEqual([
      'a d e f',
      'c d d e f',
      'a d b d d e f',
      'a e f',
    ]);
  });

  it('by chance take optional words, and the fewest turns where more cannot be said', () => {
    const said = (text: string) =>
      new Set(Array.from({ length: 60 }, (_, seed) => randomSentence(rules(`$r = ${text};`), 'r', seed)));
    expect(said('[a]')).toEqual(new Set(['', 'a']));
    expect(said('a<1->')).toEqual(new Set(['a', 'a a', 'a a a']));
    expect(said('a<2-3>')).toEqual(new Set(['a a', 'a a a']));
    expect(said('a<0-9>')).toEqual(new Set(['', 'a', 'a a']));
    expect(said('a | $VOID | b')).toEqual(new Set(['a', 'b']));
    expect(said('a ($VOID)<0->')).toEqual(new Set(['a']));
    expect(said('a ($VOID | $VOID b)<0->')).toEqual(new Set(['a']));
    expect(said('{x} $GARBAGE a')).toEqual(new Set(['a']));
  });

  it('by chance end, however the rule leads back to itself', () => {
    const grammar = rules('$r = $r $r | $r $r $r | a;');
    for (let seed = 0; seed < 20; seed += 1) expect(randomSentence(grammar, 'r', seed)).toMatch(/^a( a)*$/);
    const turns = rules('$r = a $r<0-> $r<0->;');
    for (let seed = 0; seed < 20; seed += 1) {
      expect((randomSentence(turns, 'r', seed) ?? '').split(' ').length).toBeLessThan(1_000);
    }
  });
});
