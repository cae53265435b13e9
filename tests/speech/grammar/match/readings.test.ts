/** Readings of the same words: when two count as two, how many are kept, and how far a match is searched. */
import { describe, expect, it } from 'vitest';
import { Matcher } from '../../../../src/speech/grammar/match/match';
import { grammarText, rules } from '../linked';
import { matchRule } from './match-rule';

describe('bounds of a match', () => {
  const words = (count: number): readonly string[] => Array.from({ length: count }, () => 'a');

  it('200 words', () => {
    const grammar = rules('$r = a<0->;');
    expect(matchRule(grammar, 'r', words(200))).not.toBeNull();
    expect(matchRule(grammar, 'r', words(201))).toBeNull();
  });

  it('eight readings, and it says so when there are more', () => {
    const readings = (count: number) =>
      matchRule(rules(`$r = ${Array.from({ length: count }, (_, n) => `a {out = ${n};}`).join(' | ')};`), 'r', ['a']);
    expect(readings(8)).toMatchObject({ overflown: false, readings: { length: 8 } });
    expect(readings(9)).toMatchObject({ overflown: true, readings: { length: 8 } });
  });

  it('a rule that is not there, and one of another grammar', () => {
    const grammar = rules('$r = $<public.gram#p>;', { 'public.gram': grammarText('public $p = a;') });
    expect(matchRule(grammar, 'none', ['a'])).toBeNull();
    expect(matchRule(grammar, 'p', ['a'])).toBeNull();
    expect(matchRule(grammar, 'r', ['a'])).not.toBeNull();
  });

  it('rules nested beyond reason match nothing', () => {
    const deep = (depth: number): string =>
      `$r = $c0; ${Array.from({ length: depth }, (_, n) => `$c${n} = $c${n + 1};`).join(' ')} $c${depth} = a;`;
    expect(matchRule(rules(deep(200)), 'r', ['a'])).not.toBeNull();
    expect(matchRule(rules(deep(1_000)), 'r', ['a'])).toBeNull();
  });
});

describe('when two readings count as two', () => {
  const parses = (text: string, said: readonly string[], distinction: 'meaning' | 'parse') =>
    new Matcher(rules(text), said, distinction).match('r')?.readings.map(({ parse }) => parse);

  it.each<[string, string, string[], string[], string[]]>([
    ['the same words in two branches', '$r = a | a;', ['a'], ['$r["a"]'], ['$r["a"]']],
    ['words cut otherwise', '$r = a b | "a b";', ['a', 'b'], ['$r["a","b"]'], ['$r["a","b"]', '$r["a b"]']],
    [
      'two rules that mean the same',
      '$r = $s | $t; $s = a {out = 1;}; $t = a {out = 1;};',
      ['a'],
      ['$r[$s["a",{!{out = 1;}!}]]'],
      ['$r[$s["a",{!{out = 1;}!}]]', '$r[$t["a",{!{out = 1;}!}]]'],
    ],
  ])('%s', (...[, text, said, byMeaning, byParse]) => {
    expect(parses(text, said, 'meaning')).toEqual(byMeaning);
    expect(parses(text, said, 'parse')).toEqual(byParse);
  });

  it('two tags that cannot be run are two where they fail otherwise', () => {
    const text = '$r = a {out = nothing;} | a {out = nobody;} | a {out = nothing;};';
    const match = matchRule(rules(text), 'r', ['a']);
    expect(match?.readings.map(({ meaning }) => (meaning.ok ? '' : meaning.detail))).toEqual([
      '"nothing" has no value here.',
      '"nobody" has no value here.',
    ]);
  });
});

describe('repeats', () => {
  const accepted = (text: string, most: number): number[] => {
    const grammar = rules(text);
    const counts = Array.from({ length: most + 1 }, (_, count) => count);
    return counts.filter(
      (count) =>
        matchRule(
          grammar,
          'r',
          Array.from({ length: count }, () => 'a'),
        ) !== null,
    );
  };
  it.each<[string, number[]]>([
    ['a<0>', [0]],
    ['a<2>', [2]],
    ['a<2-4>', [2, 3, 4]],
    ['a<4->', [4, 5, 6, 7]],
    ['a<0-2>', [0, 1, 2]],
    ['(a a)<1-2>', [2, 4]],
    ['(a a)<2->', [4, 6]],
    ['(a a a | a)<2>', [2, 4, 6]],
    ['(a<2> a<3>)<1->', [5]],
    ['(a<2>)<1-> (a<3>)<0-1>', [2, 4, 5, 6, 7]],
    ['(a | ())<3>', [0, 1, 2, 3]],
    ['($VOID)<0->', [0]],
    ['($VOID)<1->', []],
    ['$GARBAGE', [0, 1, 2, 3, 4, 5, 6, 7]],
    ['a $GARBAGE a', [2, 3, 4, 5, 6, 7]],
  ])('%s takes as many words as it says', (text, counts) => {
    expect(accepted(`$r = ${text};`, 7)).toEqual(counts);
  });
});
