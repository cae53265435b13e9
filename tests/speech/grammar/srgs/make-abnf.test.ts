/** What the tests write as ABNF is what was read. */
import { describe, expect, it } from 'vitest';
import type { Expansion } from '../../../../src/speech/grammar/srgs/srgs';
import { grammarOf, HEAD } from './abnf-texts';
import { makeAbnf, makeExpansion } from './make-abnf';

describe('written again', () => {
  it.each([
    'a',
    '"a b"',
    '()',
    '$NULL',
    '$a',
    '$<b.gram>',
    '$<b.gram#c>',
    '$<b.gram#c>~<application/srgs>',
    '{x = 1;}',
    '{!{x = {};}!}',
    '{!{!{x}!}',
    'a b',
    'a | b c',
    '/2/ a',
    '/0.25/ a | /12.5/ b',
    'a $NULL $a $<b.gram#c>',
    '/2/ a | /0.5/ (b | c) | d',
    'a <3>',
    'a <0-1>',
    'a <2->',
    'a <1-2 /0.5/>',
    '(a b) <2>',
    '(a <2>) <3>',
    'a!fr',
    '(a b)!fr',
    '(a | b) c () {x}',
  ])('%s stays as it is', (text) => {
    const [rule] = grammarOf(`${HEAD}public $a = ${text};`).rules;
    expect(rule && makeExpansion(rule.expansion)).toBe(text);
  });

  it('a fraction without a nought before its point is one with it', () => {
    const [rule] = grammarOf(`${HEAD}$a = /.25/ b | /12./ c;`).rules;
    expect(rule && makeExpansion(rule.expansion)).toBe('/0.25/ b | /12/ c');
  });

  it('numbers without exponent', () => {
    const expansion: Expansion = {
      kind: 'choice',
      alternatives: [
        { weight: 1e-7, expansion: { kind: 'token', words: ['a'], quoted: false } },
        { weight: 25, expansion: { kind: 'token', words: ['b'], quoted: false } },
      ],
    };
    expect(makeExpansion(expansion)).toBe('/0.00000010000000000000/ a | /25/ b');
  });

  it('a header with all that it can hold, and one with the least', () => {
    const full = `#ABNF 1.0 UTF-8;
language en-US;
mode voice;
root $a;
tag-format <semantics/1.0>;
base <http://grammars.example/>;
lexicon <l>;
lexicon <m>~<a/b>;
meta "author" is 'Q "R" S';
http-equiv "Date" is "today";
{var a = 1;};
{!{var b = {};}!};
public $a = b;
private $c = $a;
`;
    expect(makeAbnf(grammarOf(full))).toBe(full);
    const least = '#ABNF 1.0;\nmode dtmf;\nprivate $a = 1;\n';
    expect(makeAbnf(grammarOf(least))).toBe(least);
  });
});
