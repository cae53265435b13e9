/** Matching: what is accepted, how it is read, when it is ambiguous, and that no grammar can make it work for ever. */
import { describe, expect, it } from 'vitest';
import { parseAbnf } from '../../../../src/speech/grammar/srgs/parse-abnf';
import { linkGrammar } from '../../../../src/speech/grammar/srgs/link';
import { matchRule } from './match-rule';
import { grammarText, rules } from '../linked';

const parse = (text: string, words: string, others = {}): string | null =>
  matchRule(rules(text, others), 'r', words === '' ? [] : words.split(' '))?.parse ?? null;

describe('acceptance and logical parse', () => {
  it.each([
    ['repeat without bound', '$r = a<2->;', 'a a a', '$r["a","a","a"]'],
    ['too few', '$r = a<2->;', 'a', null],
    ['optional left out', '$r = [a] b;', 'b', '$r["b"]'],
    ['nothing said to a rule that may be empty', '$r = [a];', '', '$r[]'],
    ['nothing said to a rule that may not', '$r = a;', '', null],
    ['a rule within a rule', '$r = $s b; $s = a;', 'a b', '$r[$s["a"],"b"]'],
    ['quoted words are one token', '$r = "a b" c;', 'a b c', '$r["a b","c"]'],
    ['words are not cut', '$r = ab;', 'a b', null],
    ['capitals matter to the standard', '$r = A;', 'a', null],
    ['garbage takes any words', '$r = $GARBAGE stow $GARBAGE;', 'now one stow please', '$r["stow"]'],
    ['void is never said', '$r = a | $VOID;', 'b', null],
    ['left recursion', '$r = $r a | b;', 'b a a', '$r[$r[$r["b"],"a"],"a"]'],
    ['right recursion', '$r = a $r | b;', 'a a b', '$r["a",$r["a",$r["b"]]]'],
    ['hidden left recursion', '$r = [x] $r a | b;', 'b a', '$r[$r["b"],"a"]'],
    ['mutual recursion', '$r = $s a | b; $s = $r c | d;', 'd a c a', '$r[$s[$r[$s["d"],"a"],"c"],"a"]'],
    ['a rule that only leads to itself', '$r = $r;', 'a', null],
    ['repeats of what may be empty end', '$r = ([a])<0->;', 'a a', '$r["a","a"]'],
    ['tags of empty turns are kept', '$r = ({x} [a])<2>;', '', '$r[{!{x}!},{!{x}!}]'],
  ])('%s', (...[, text, words, expected]) => {
    expect(parse(text, words)).toBe(expected);
  });

  it('joins grammars, and shows the address as it was written', () => {
    const others = {
      'sub/b.gram': grammarText('public $b = x $<c.gram>;'),
      'sub/c.gram': '#ABNF 1.0;\nlanguage en;\nroot $c;\n$c = y;',
    };
    expect(parse('$r = $<sub/b.gram#b>;', 'x y', others)).toBe('$r[$<sub/b.gram#b>["x",$<c.gram>["y"]]]');
  });

  it('grammars may refer to one another in a ring', () => {
    const others = { 'b.gram': grammarText('public $b = y | $<main.gram#r>;') };
    expect(parse('public $r = x $<b.gram#b>;', 'x x y', others)).toBe(
      '$r["x",$<b.gram#b>[$<main.gram#r>["x",$<b.gram#b>["y"]]]]',
    );
  });
});

describe('a reference that leads nowhere is refused', () => {
  const others: Readonly<Record<string, string>> = {
    'private.gram': grammarText('$p = a;'),
    'dtmf.gram': '#ABNF 1.0;\nmode dtmf;\npublic $d = 1;',
    'broken.gram': 'nonsense',
  };
  it.each([
    ['no such file', '$<none.gram#x>', 'There is no grammar at "none.gram"'],
    ['no such rule', '$<private.gram#x>', 'There is no rule $x'],
    ['a private rule', '$<private.gram#p>', 'is private'],
    ['no root', '$<private.gram>', 'declares no root'],
    ['another mode', '$<dtmf.gram#d>', 'cannot refer to a dtmf grammar'],
    ['another form', '$<private.gram#p>~<application/srgs+xml>', 'is an ABNF grammar'],
    ['a broken file', '$<broken.gram#x>', 'broken.gram:1:1: The first line'],
  ])('%s', (...[, reference, sentence]) => {
    const read = parseAbnf('main.gram', grammarText(`$r = ${reference};`));
    expect(read.ok).toBe(true);
    const joined = read.ok ? linkGrammar(read.value, (address) => others[address] ?? null) : read;
    expect(joined.ok).toBe(false);
    expect(joined.ok ? '' : joined.detail).toContain(sentence);
  });

  it('a telephone grammar may hold keys only', () => {
    const read = parseAbnf('main.gram', '#ABNF 1.0;\nmode dtmf;\n$r = stow;');
    expect(read.ok && linkGrammar(read.value, () => null)).toMatchObject({ ok: false, reason: 'bad-grammar' });
  });
});

describe('two meanings of the same words are both told', () => {
  it('different meanings', () => {
    const match = matchRule(rules('$r = a {out = 1;} | a {out = 2;};'), 'r', ['a']);
    expect(match?.readings.map(({ meaning }) => meaning)).toEqual([
      { ok: true, value: 1 },
      { ok: true, value: 2 },
    ]);
  });

  it('the same meaning twice is one reading', () => {
    expect(matchRule(rules('$r = a {out = 1;} | [b] a {out = 1;};'), 'r', ['a'])?.readings).toHaveLength(1);
  });

  it('an ambiguity deep inside comes to the top', () => {
    const text =
      '$r = $x c {out.x = rules.x;}; $x = $y [b] | $y $y; $y = a {out = 1;} | a b {out = 2;} | b {out = 3;};';
    expect(matchRule(rules(text), 'r', ['a', 'b', 'c'])?.readings.length).toBeGreaterThan(1);
  });

  it('says so when there are more than it keeps', () => {
    const many = Array.from({ length: 30 }, (_, n) => `a {out = ${n};}`).join(' | ');
    const match = matchRule(rules(`$r = ${many};`), 'r', ['a']);
    expect(match?.overflown).toBe(true);
  });
});

describe('hostile grammars cost bounded work: an answer, or none, but an end', () => {
  const words = (count: number): readonly string[] => Array.from({ length: count }, () => 'a');
  it.each([
    ['every way to bracket', '$r = $r $r | a;', 40],
    ['every way to bracket, with something else at the end', '$r = $r $r | a | b;', 40],
    ['repeats of repeats of repeats', '$r = (((a<0->)<0->)<0->)<0->;', 40],
    ['many optional parts', `$r = ${'[a] '.repeat(60)};`, 40],
    ['garbage upon garbage', `$r = ${'$GARBAGE '.repeat(30)};`, 60],
    ['large bounds', '$r = (([a])<0-9999>)<0-9999>;', 60],
    ['empty turns without number', '$r = (({x})<9999>)<9999>;', 0],
    [
      'a long chain of rules',
      `$r = $c0; ${Array.from({ length: 3000 }, (_, n) => `$c${n} = $c${n + 1};`).join(' ')} $c3000 = a;`,
      1,
    ],
    ['more words than anybody says', '$r = a<0->;', 5000],
  ])('%s', (...[, text, count]) => {
    const match = matchRule(rules(text), 'r', words(count));
    expect(match === null || match.parse.startsWith('$r[')).toBe(true);
  });

  it('a meaning that doubles with each word is stopped', () => {
    const match = matchRule(
      rules(
        '$r = a {out.x = 1;} (a {out = {left: out, right: out};})<0->;'.replace(
          /\{out = \{(.*?)\};\}/,
          '{!{out = {$1};}!}',
        ),
      ),
      'r',
      words(40),
    );
    expect(match?.meaning).toMatchObject({ ok: false, reason: 'no-meaning' });
  });
});
