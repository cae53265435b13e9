/** Grammars that refer to one another: every reason to refuse, with file, line and column, and the bounds of size. */
import { describe, expect, it } from 'vitest';
import { linkGrammar } from '../../../../src/speech/grammar/srgs/link';
import { Matcher } from '../../../../src/speech/grammar/match/match';
import { matchRule } from '../match/match-rule';
import { parseAbnf } from '../../../../src/speech/grammar/srgs/parse-abnf';
import { grammarText, linked, rules } from '../linked';

const OTHERS: Readonly<Record<string, string>> = {
  'private.gram': grammarText('$p = a;'),
  'public.gram': grammarText('public $p = a;'),
  'rooted.gram': '#ABNF 1.0;\nlanguage en;\nroot $p;\n$p = a;',
  'dtmf.gram': '#ABNF 1.0;\nmode dtmf;\npublic $d = 1;',
  'broken.gram': 'nonsense',
};

function linkFault(text: string, file = 'main.gram'): string {
  const read = parseAbnf(file, text);
  if (!read.ok) throw new Error(read.detail);
  const joined = linkGrammar(read.value, (address) => OTHERS[address] ?? null);
  return joined.ok ? 'linked' : `${joined.reason}: ${joined.detail}`;
}

describe('a reference that leads nowhere says where it stands', () => {
  it.each([
    ['$<none.gram#x>', 'There is no grammar at "none.gram".'],
    ['$<private.gram#x>', 'There is no rule $x in "private.gram".'],
    ['$<private.gram#p>', '$p in "private.gram" is private; make it public to refer to it.'],
    ['$<private.gram>', '"private.gram" declares no root; name a rule after "#".'],
    ['$<dtmf.gram#d>', 'A voice grammar cannot refer to a dtmf grammar.'],
    ['$<public.gram#p>~<application/srgs+xml>', '"public.gram" is an ABNF grammar, not application/srgs+xml.'],
    ['$<public.gram#p>~<x-application/srgs>', '"public.gram" is an ABNF grammar, not x-application/srgs.'],
  ])('%s', (reference, sentence) => {
    expect(linkFault(grammarText(`$r = a\n  ${reference};`))).toBe(`unresolved-reference: main.gram:5:3: ${sentence}`);
  });

  it('a broken grammar is told with its own place', () => {
    expect(linkFault(grammarText('$r = $<broken.gram#x>;'))).toMatch(/^bad-grammar: broken\.gram:1:1: The first line/);
  });

  it.each([
    '$<public.gram#p>',
    '$<rooted.gram>',
    '$<public.gram#p>~<application/srgs>',
    '$<public.gram#p>~<application/srgs;charset=utf-8>',
    // By its own address a grammar reaches its private rules too.
    '$<main.gram#q>',
    '$<#q>',
  ])('%s leads somewhere', (reference) => {
    const text = `$r = x ${reference}; $q = a;`;
    expect(linkFault(grammarText(text))).toBe('linked');
    expect(matchRule(rules(text, OTHERS), 'r', ['x', 'a'])).not.toBeNull();
    expect(matchRule(rules(text, OTHERS), 'r', ['x', 'b'])).toBeNull();
  });

  it('a private root can be reached by the address alone, not by its name', () => {
    expect(linkFault(grammarText('$r = $<rooted.gram#p>;'))).toContain('$p in "rooted.gram" is private');
  });

  it('the first of two faults is told', () => {
    const text = grammarText('$r = $<private.gram#x> $<private.gram#y>;');
    expect(linkFault(text)).toContain('There is no rule $x');
    const keys = '#ABNF 1.0;\nmode dtmf;\n$r = stow away;';
    expect(linkFault(keys)).toBe('bad-grammar: main.gram:1:1: "stow" is no key of a telephone (mode dtmf).');
  });
});

describe('the keys of a telephone (SRGS appendix E)', () => {
  const keys = (text: string, said: readonly string[]) =>
    matchRule(linked(`#ABNF 1.0;\nmode dtmf;\n$r = ${text};`), 'r', said)?.parse ?? null;
  it('are 0 to 9, A to D, star and pound', () => {
    expect(keys('0 9 A D "*" "#"', ['0', '9', 'A', 'D', '*', '#'])).toBe('$r["0","9","A","D","*","#"]');
    expect(keys('star pound', ['*', '#'])).toBe('$r["*","#"]');
    expect(keys('star pound', ['star', 'pound'])).toBeNull();
  });

  it.each(['E', '10', 'x1', '1x', 'a', '"1 x"'])('%s is none', (key) => {
    expect(linkFault(`#ABNF 1.0;\nmode dtmf;\n$r = 1 ${key};`)).toContain('is no key of a telephone (mode dtmf).');
  });

  it('and in a spoken grammar star is a word', () => {
    expect(matchRule(rules('$r = star E;'), 'r', ['star', 'E'])?.parse).toBe('$r["star","E"]');
  });
});

describe('bounds of a joined grammar', () => {
  /** A chain of grammars, each of which refers to the next. */
  function chain(length: number): string {
    const read = parseAbnf('g0', grammarText('public $r = $<g1#r>;'));
    if (!read.ok) throw new Error(read.detail);
    const joined = linkGrammar(read.value, (address) => {
      const at = Number(address.slice(1));
      return grammarText(at === length - 1 ? 'public $r = a;' : `public $r = a $<g${at + 1}#r>;`);
    });
    return joined.ok ? 'linked' : `${joined.reason}: ${joined.detail}`;
  }

  it('a hundred grammars', () => {
    expect(chain(100)).toBe('linked');
    expect(chain(101)).toBe('unresolved-reference: g99:4:15: Too many grammars refer to one another.');
  });

  it('50,000 parts', () => {
    // Each word is a part, and so is the sequence of them.
    const words = (count: number): string => grammarText(`$r = ${'a '.repeat(count)};`);
    expect(linkFault(words(49_999))).toBe('linked');
    expect(linkFault(words(50_000))).toBe('bad-grammar: main.gram:1:1: The grammar is too large.');
  });
});

describe('addresses are joined as they are written', () => {
  it('with the base of the grammar, else with its own address', () => {
    const others = {
      'http://x/sub/b.gram': grammarText('public $b = y $<c.gram#c>;'),
      'http://x/sub/c.gram': grammarText('public $c = z;'),
    };
    const text = grammarText('$r = $<b.gram#b>;').replace('language en;', 'language en; base <http://x/sub/>;');
    expect(matchRule(linked(text, others), 'r', ['y', 'z'])?.parse).toBe(
      '$r[$<http://x/sub/b.gram#b>["y",$<c.gram#c>["z"]]]',
    );
  });

  it('a document is read but once, by whatever steps it is reached', () => {
    let reads = 0;
    const read = parseAbnf('main.gram', grammarText('$r = $<b.gram#b> $<./b.gram#b> $<sub/../b.gram#b>;'));
    if (!read.ok) throw new Error(read.detail);
    const joined = linkGrammar(read.value, () => {
      reads += 1;
      return grammarText('public $b = y;');
    });
    expect(joined.ok && joined.value.rules.map(({ name, file }) => `${file}#${name}`)).toEqual([
      'main.gram#r',
      'b.gram#b',
    ]);
    expect(reads).toBe(1);
  });

  it('each grammar has its own tag format', () => {
    const others = { 'b.gram': grammarText('public $b = y {yes};', 'semantics/1.0-literals') };
    expect(matchRule(rules('$r = $<b.gram#b> {out.b = rules.b;};', others), 'r', ['y'])?.meaning).toEqual({
      ok: true,
      value: { b: 'yes' },
    });
  });
});

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
    const grammar = rules('$r = $<public.gram#p>;', OTHERS);
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
