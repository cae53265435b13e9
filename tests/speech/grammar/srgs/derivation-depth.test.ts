/** The depth of the shallowest derivation of each part of a grammar. */
import { describe, expect, it } from 'vitest';
import { generateSentences } from '../../../../src/speech/grammar/match/generate-sentences';
import { minimalDepths } from '../../../../src/speech/grammar/srgs/derivation-depth';
import { ruleIndex } from '../../../../src/speech/grammar/srgs/reachable-rules';
import { grammarText, rules } from '../linked';
import { randomSentence } from '../match/random-sentence';

describe('the minimal depth of a derivation', () => {
  const depthOf = (text: string): number => {
    const grammar = rules(text);
    return minimalDepths(grammar)[grammar.rules[ruleIndex(grammar, 'r')]?.node ?? -1] ?? Number.NaN;
  };
  it.each<[string, number]>([
    ['$r = a;', 1],
    ['$r = {x};', 1],
    ['$r = $GARBAGE;', 1],
    ['$r = $VOID;', Infinity],
    ['$r = ();', 1],
    ['$r = a b;', 2],
    ['$r = a (b c);', 3],
    ['$r = a | b c;', 2],
    ['$r = (b c) | (d (e f));', 3],
    ['$r = [a b];', 1],
    ['$r = (a b)<2>;', 3],
    ['$r = ($VOID)<1->;', Infinity],
    ['$r = ($VOID)<0->;', 1],
    ['$r = a $VOID;', Infinity],
    ['$r = a | $VOID;', 2],
    ['$r = $s; $s = a;', 2],
    ['$r = $r;', Infinity],
    ['$r = a $r;', Infinity],
    ['$r = a $r | b;', 2],
    ['$r = $s | $r; $s = $t; $t = a;', 4],
    // Rules that stand in the other order.
    ['$s = a; $r = $s;', 2],
    ['$t = a; $s = $t; $r = $s | $r;', 4],
  ])('%s: %d', (text, expected) => {
    expect(depthOf(text)).toBe(expected);
  });

  it('a rule is looked for in its own grammar alone', () => {
    const others = { 'b.gram': grammarText('public $s = a;') };
    const grammar = rules('$r = $<b.gram#s>;', others);
    expect(ruleIndex(grammar, 'r')).toBe(0);
    expect(ruleIndex(grammar, 's')).toBe(-1);
    expect(generateSentences(grammar, 's', 5)).toEqual([]);
    expect(randomSentence(grammar, 's', 1)).toBeNull();
  });
});
