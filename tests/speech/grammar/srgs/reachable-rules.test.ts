/** Which rules a rule leads to, within its grammar and beyond. */
import { describe, expect, it } from 'vitest';
import { reachableRules, ruleIndex } from '../../../../src/speech/grammar/srgs/reachable-rules';
import { grammarText, rules } from '../linked';

const grammar = rules(
  '$b = unused; $a = [$c]; $c = (x | $d)<2> {y} $<other.gram#e>; $d = $c | $a; $e = own; $lonely = $VOID;',
  { 'other.gram': grammarText('public $e = far $f; $f = further; $g = unused;') },
);
const reached = (...names: string[]): readonly string[] =>
  [...reachableRules(grammar, names)]
    .map((index) => `${grammar.rules[index]?.file}#${grammar.rules[index]?.name}`)
    .sort();

describe('the rules that are reached', () => {
  it.each([
    [['b'], ['main.gram#b']],
    [['a'], ['main.gram#a', 'main.gram#c', 'main.gram#d', 'other.gram#e', 'other.gram#f']],
    [
      ['e', 'lonely'],
      ['main.gram#e', 'main.gram#lonely'],
    ],
    [['none'], []],
    [[], []],
  ])('from %j are %j', (names, expected) => {
    expect(reached(...names)).toEqual(expected);
  });
});

describe('a rule is found by its name', () => {
  it.each([
    ['b', 0],
    ['e', 4],
    // It stands in the other grammar alone.
    ['f', -1],
    ['none', -1],
  ])('%s at %d', (name, index) => {
    expect(ruleIndex(grammar, name)).toBe(index);
  });
});
