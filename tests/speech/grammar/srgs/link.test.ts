/** Grammars that refer to one another: every reason to refuse, with file, line and column, and the bounds of size. */
import { describe, expect, it } from 'vitest';
import { linkGrammar } from '../../../../src/speech/grammar/srgs/link';
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
