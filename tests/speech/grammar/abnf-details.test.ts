/** Every sentence about a broken grammar, with its file, line and column, and every bound of the reader (SRGS 1.0). */
import { describe, expect, it } from 'vitest';
import { makeAbnf, makeExpansion } from './make-abnf';
import { parseAbnf } from '../../../src/speech/grammar/srgs/parse-abnf';
import { entryRules } from '../../../src/speech/grammar/srgs/srgs';
import type { Expansion, Grammar } from '../../../src/speech/grammar/srgs/srgs';
import { removeDots, resolveUri, splitFragment } from '../../../src/speech/grammar/srgs/uri';

const HEAD = '#ABNF 1.0;\nlanguage en;\n';
const FIRST_LINE = 'The first line must be "#ABNF 1.0;" or "#ABNF 1.0 UTF-8;", with nothing else on it.';
const NO_REPEAT = 'A repeat is written <3>, <0-1>, <2-5> or <1->.';
const NO_ADDRESS = 'An address must name a rule after "#", and not a reserved one.';
const NO_WEIGHT = 'A weight is a plain number between strokes, such as /0.5/.';

function faultOf(text: string): string {
  const read = parseAbnf('a.gram', text);
  return read.ok ? 'read' : read.detail;
}

function grammarOf(text: string): Grammar {
  const read = parseAbnf('a.gram', text);
  if (!read.ok) throw new Error(read.detail);
  return read.value;
}

describe('the first line', () => {
  it.each([
    '',
    '#ABNF 1.0',
    '#ABNF 1.0;',
    '#ABNF 1.0;x\n',
    '#ABNF 1.0; \n',
    ' #ABNF 1.0;\n',
    '\n#ABNF 1.0;\n',
    '#ABNF 1x0;\n',
    '#ABNF 1.0 ;\n',
    '#ABNF 1.0 UTF 8;\n',
    '#ABNF 1.0 ü;\n',
  ])('is not %j', (text) => {
    expect(faultOf(`${text}language en;\n$a = b;`)).toBe(`a.gram:1:1: ${FIRST_LINE}`);
  });

  it.each([
    ['#ABNF 1.0;\n', null],
    ['#ABNF 1.0;\r\n', null],
    ['#ABNF 1.0;\r', null],
    ['#ABNF 1.0 ISO-8859-1;\n', 'ISO-8859-1'],
    ['#ABNF 1.0 x_y.z:0;\n', 'x_y.z:0'],
    ['\uFEFF#ABNF 1.0 UTF-8;\n', 'UTF-8'],
  ])('may be %j', (text, encoding) => {
    expect(grammarOf(`${text}language en;\n$a = b;`).header.encoding).toBe(encoding);
  });
});

describe('a fault in the header', () => {
  it.each([
    ['language fr;', '3:1: "language" is declared twice; keep one.'],
    ['mode voice; mode voice;', '3:13: "mode" is declared twice; keep one.'],
    ['root $a; root $a;', '3:10: "root" is declared twice; keep one.'],
    ['tag-format <a>; tag-format <a>;', '3:17: "tag-format" is declared twice; keep one.'],
    ['base <a>; base <a>;', '3:11: "base" is declared twice; keep one.'],
    ['mode talk;', '3:6: The mode must be voice or dtmf, not "talk".'],
    ['root a;', '3:6: Expected "$" before a rule name, found "a".'],
    ['root $;', '3:6: "$" is not a legal rule name.'],
    ['root $b; $a = c;', '1:1: The root $b is not defined in this grammar.'],
    ['tag-format a;', '3:12: Expected "<" before an address, found "a".'],
    ['base <>;', '3:6: "" is not an address.'],
    ['base <a', '3:7: This address is never closed: add ">".'],
    ['base <a"b>;', '3:6: "a"b" is not an address.'],
    ['base <a{b>;', '3:6: "a{b" is not an address.'],
    ['base <a\\b>;', '3:6: "a\\b" is not an address.'],
    ['lexicon <l>~x;', '3:13: Expected "<" before a media type, found "x".'],
    ['lexicon <l>~<x', '3:14: This media type is never closed: add ">".'],
    ['lexicon <l>~<x>;', '3:12: "x" is not a media type.'],
    ['lexicon <l>~</x>;', '3:12: "/x" is not a media type.'],
    ['lexicon <l>~<a/>;', '3:12: "a/" is not a media type.'],
    ['lexicon <l>~<a/b c>;', '3:12: "a/b c" is not a media type.'],
    ['lexicon <l>~< a/b>;', '3:12: " a/b" is not a media type.'],
    ['meta a is "b";', '3:6: Expected text in quotes, found "a".'],
    ['meta "a" as "b";', '3:10: Expected "is" between name and content.'],
    ['meta "a" is b;', '3:13: Expected text in quotes, found "b".'],
    ['meta "a', '3:7: This quoted text is never closed: add """.'],
    ['meta \'a" is "b";', '3:7: This quoted text is never closed: add "\'".'],
    ['speed 5;', '3:1: "speed" is no declaration that a grammar header may hold.'],
    ['publik $a = b;', '3:1: "publik" is no declaration that a grammar header may hold.'],
    ['?;', '3:1: "?" is no declaration that a grammar header may hold.'],
    ['{x', '3:2: This tag is never closed: add "}".'],
    ['{!{x}', '3:4: This tag is never closed: add "}!}".'],
    ['{x} y', '3:5: Expected ";" at the end of a declaration, found "y".'],
    ['mode voice mode', '3:12: Expected ";" at the end of a declaration, found "mode".'],
    ['root $a', '3:8: Expected ";" at the end of a declaration, found the end of the file.'],
  ])('%s', (text, expected) => {
    expect(faultOf(HEAD + text)).toBe(`a.gram:${expected}`);
  });

  it('a spoken grammar names its language, one of keys need not', () => {
    const sentence = 'A spoken grammar must declare its language, for example "language en-US;".';
    expect(faultOf('#ABNF 1.0;\nmode voice;\n$a = b;')).toBe(`a.gram:1:1: ${sentence}`);
    expect(faultOf('#ABNF 1.0;\n$a = b;')).toBe(`a.gram:1:1: ${sentence}`);
    expect(faultOf('#ABNF 1.0;\nlanguage ;')).toBe('a.gram:2:10: "" is not a language code such as en-US.');
    expect(faultOf('#ABNF 1.0;\nlanguage e_n;')).toBe('a.gram:2:10: "e_n" is not a language code such as en-US.');
    expect(grammarOf('#ABNF 1.0;\nmode dtmf;\n$a = 1;').header).toMatchObject({ mode: 'dtmf', language: null });
  });

  it.each([
    ['en', true],
    ['abcdefgh-12345678-x', true],
    ['abcdefghi', false],
    ['en-123456789', false],
    ['1en', false],
    ['en-', false],
    ['en-US_x', false],
  ])('language %s: %s (RFC 3066 section 2.1)', (code, expected) => {
    expect(faultOf(`#ABNF 1.0;\nlanguage ${code};\n`) === 'read').toBe(expected);
  });

  it('holds media types with parameters', () => {
    const { header } = grammarOf(`${HEAD}lexicon <l>~<a.b+c/d-e; x=y>; lexicon <m>~<a/b ;x>;`);
    expect(header.lexicons).toEqual([
      { uri: 'l', mediaType: 'a.b+c/d-e; x=y' },
      { uri: 'm', mediaType: 'a/b ;x' },
    ]);
  });

  it('ends at the first rule, marked or not', () => {
    for (const rule of ['$a = b;', 'public $a = b;', 'private $a = b;']) {
      expect(grammarOf(`${HEAD}mode voice;\n${rule}`).rules).toHaveLength(1);
      expect(faultOf(`${HEAD}${rule} mode voice;`)).toContain(
        'Expected a rule such as "$name = words;", found "mode".',
      );
    }
    expect(grammarOf(HEAD).header).toEqual({
      encoding: null,
      language: 'en',
      mode: 'voice',
      root: null,
      tagFormat: null,
      base: null,
      lexicons: [],
      metas: [],
      tags: [],
    });
  });

  it('tells where its tags stand', () => {
    expect(grammarOf(`${HEAD} {var a = 1;} ; {!{var b = "}";}!};`).header.tags).toEqual([
      { content: 'var a = 1;', place: { line: 3, column: 2 } },
      { content: 'var b = "}";', place: { line: 3, column: 17 } },
    ]);
  });
});

describe('a fault in a rule', () => {
  it.each([
    ['public a = b;', '3:8: Expected "$" before a rule name, found "a".'],
    ['$a = b; ?', '3:9: Expected a rule such as "$name = words;", found "?".'],
    ['$a b;', '3:4: Expected "=" after $a, found "b".'],
    ['public $GARBAGE = b;', '3:1: $GARBAGE is reserved and cannot be defined.'],
    ['$NULL = b;', '3:1: $NULL is reserved and cannot be defined.'],
    ['$a = b; $a = c;', '3:9: Rule $a is defined twice; rename one.'],
    ['$a.b = c;', '3:1: "$a.b" is not a legal rule name.'],
    ['$a:b = c;', '3:1: "$a:b" is not a legal rule name.'],
    ['$a = b c', '3:9: Expected ";" at the end of rule $a, found the end of the file.'],
    ['$a = ;', '3:6: Expected words before ";"; write () or $NULL for nothing.'],
    ['$a = | b;', '3:6: Expected words before "|"; write () or $NULL for nothing.'],
    ['$a = /1/ ;', '3:10: Expected words before ";"; write () or $NULL for nothing.'],
    ['$a = (b;', '3:8: Expected ")" to close a bracket, found ";".'],
    ['$a = [b);', '3:8: Expected "]" to close a bracket, found ")".'],
    ['$a = [];', '3:7: Expected words before "]"; write () or $NULL for nothing.'],
    ['$a = [);', '3:7: Expected words before ")"; write () or $NULL for nothing.'],
    ['$a = ) b;', '3:6: Expected words before ")"; write () or $NULL for nothing.'],
    ['$a = $;', '3:6: "$" is not a legal rule name.'],
    ['$a = $b;', '3:6: $b is not defined in this grammar.'],
    ['$a = (x | [y $b])!en <2>;', '3:14: $b is not defined in this grammar.'],
    ['$a = $<b.gram;', '3:8: This address is never closed: add ">".'],
    ['$a = $<#>;', `3:6: ${NO_ADDRESS}`],
    ['$a = $<b#VOID>;', `3:6: ${NO_ADDRESS}`],
    ['$a = $<#b>;', '3:6: $b is not defined in this grammar.'],
    ['$a = $< b>;', '3:7: " b" is not an address.'],
    ['$a = "b;', '3:7: This quoted token is never closed: add """.'],
    ['$a = "";', '3:6: A quoted token is empty; write () for nothing.'],
    ['$a = b!en_US;', '3:7: "!en_US" is not a language such as !en-US.'],
    ['$a = b !;', '3:8: "!" is not a language such as !en-US.'],
    ['$a = b<>;', `3:7: ${NO_REPEAT}`],
    ['$a = b<-2>;', `3:7: ${NO_REPEAT}`],
    ['$a = b<1234567890>;', `3:7: ${NO_REPEAT}`],
    ['$a = b<1-1234567890>;', '3:9: Expected ">" to close a repeat, found "-1234567890>".'],
    ['$a = b<1;', '3:9: Expected ">" to close a repeat, found ";".'],
    ['$a = b<1 x>;', '3:10: Expected ">" to close a repeat, found "x>".'],
    ['$a = b<2-1>;', '3:7: A repeat from 2 to 1 runs backwards.'],
    ['$a = b<10001>;', '3:7: Repeats go to 10000 at most.'],
    ['$a = b<1-10001>;', '3:7: Repeats go to 10000 at most.'],
    ['$a = b<10001->;', '3:7: Repeats go to 10000 at most.'],
    ['$a = b<1 /2/>;', '3:7: A probability lies between 0 and 1.'],
    ['$a = b<1 /x/>;', '3:10: A probability is a plain number between strokes, such as /0.5/.'],
    ['$a = /x/ b;', `3:6: ${NO_WEIGHT}`],
    ['$a = /x /0.5/ b;', `3:6: ${NO_WEIGHT}`],
    ['$a = /./ b;', `3:6: ${NO_WEIGHT}`],
    ['$a = /1.e/ b;', `3:6: ${NO_WEIGHT}`],
    ['$a = /1 b;', `3:6: ${NO_WEIGHT}`],
    ['$a = b /* c', '3:8: This comment is never closed: add "*/".'],
    ['$a = b /*/ c;', '3:8: This comment is never closed: add "*/".'],
    [
      "$a = b 'andsomemorelettersthananybodyreads;",
      '3:8: Expected ";" at the end of rule $a, found "\'andsomemoreletterst".',
    ],
    ['$a = b \u{1F602};', '3:8: Expected ";" at the end of rule $a, found "\u{1F602}".'],
    ['$a = b \u00a0c;', '3:8: Expected ";" at the end of rule $a, found "\u00a0".'],
  ])('%s', (text, expected) => {
    expect(faultOf(HEAD + text)).toBe(`a.gram:${expected}`);
  });

  it.each([
    ['line feeds', '\n\n$a = b ?', '5:8'],
    ['carriage returns', '\r\r$a = b ?', '5:8'],
    ['both together are one line end', '\r\n\r\n$a = b ?', '5:8'],
    ['comments of two kinds', '// $x\n/* \n */ $a = b ?', '5:12'],
  ])('is found behind %s', (_, text, place) => {
    expect(faultOf(HEAD + text)).toBe(`a.gram:${place}: Expected ";" at the end of rule $a, found "?".`);
  });
});

describe('bounds of the reader', () => {
  it('a million characters', () => {
    const grammar = `${HEAD}$a = b;`;
    expect(faultOf(grammar.padEnd(1_000_000))).toBe('read');
    expect(faultOf(grammar.padEnd(1_000_001))).toBe('a.gram:1:1: A grammar may have 1000000 characters at most.');
  });

  it('a hundred brackets', () => {
    const nested = (depth: number): string => `${HEAD}$a = ${'('.repeat(depth)}b${')'.repeat(depth)};`;
    expect(faultOf(nested(100))).toBe('read');
    expect(faultOf(nested(101))).toBe('a.gram:3:107: Brackets are nested more than 100 deep.');
  });

  it.each(['<10000>', '<0-10000>', '<10000->', '<2-2>', '<1 /1/>', '<1 /0/>', '<1/1.0/>'])(
    'a repeat of %s',
    (repeat) => {
      expect(faultOf(`${HEAD}$a = b${repeat};`)).toBe('read');
    },
  );
});

describe('words (SRGS appendix D: an Nmtoken)', () => {
  it.each(['a.b_c:d-e', '\u00b7x', '0', 'Ⅷ', 'e\u0301', '-a', '\u{10400}x', 'größe'])('%s is one', (word) => {
    const [rule] = grammarOf(`${HEAD}$a = ${word};`).rules;
    expect(rule?.expansion).toEqual({ kind: 'token', words: [word], quoted: false });
  });

  it.each(['a', '_a', 'Ⅷa', 'größe', 'a1'])('$%s is a rule name', (name) => {
    expect(grammarOf(`${HEAD}$${name} = b;`).rules[0]?.name).toBe(name);
  });

  it('end where white space, a bracket or a comment begins', () => {
    const [rule] = grammarOf(`${HEAD}$a = b\tc\rd/* x */e// y\r(f)g;// end`).rules;
    expect(rule && makeExpansion(rule.expansion)).toBe('b c d e f g');
  });
});

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

describe('where a grammar is entered (SRGS 4.7)', () => {
  it('at its root, else at every public rule', () => {
    const rules = 'public $a = x; $b = y; public $c = z;';
    expect(entryRules(grammarOf(`${HEAD}${rules}`))).toEqual(['a', 'c']);
    expect(entryRules(grammarOf(`${HEAD}root $b; ${rules}`))).toEqual(['b']);
  });
});

describe('addresses', () => {
  /** RFC 3986 section 5.4, with its base; those with a query or fragment alone are none of ours. */
  it.each([
    ['g:h', 'g:h'],
    ['g', 'http://a/b/c/g'],
    ['./g', 'http://a/b/c/g'],
    ['g/', 'http://a/b/c/g/'],
    ['/g', 'http://a/g'],
    ['//g', 'http://g'],
    ['g?y', 'http://a/b/c/g?y'],
    ['g/x:h', 'http://a/b/c/g/x:h'],
    ['ab+c.d-1:x', 'ab+c.d-1:x'],
    [';x', 'http://a/b/c/;x'],
    ['../g', 'http://a/b/g'],
    ['../../g', 'http://a/g'],
    ['../../../g', 'http://a/g'],
    ['/./g', 'http://a/g'],
    ['/../g', 'http://a/g'],
    ['g.', 'http://a/b/c/g.'],
    ['..g', 'http://a/b/c/..g'],
    ['./../g', 'http://a/b/g'],
    ['g/./h', 'http://a/b/c/g/h'],
    ['g/../h', 'http://a/b/c/h'],
  ])('%s is %s', (reference, expected) => {
    expect(resolveUri('http://a/b/c/d;p?q', reference)).toBe(expected);
  });

  it.each([
    ['main.gram', 'b.gram', 'b.gram'],
    ['sub/main.gram', 'b.gram', 'sub/b.gram'],
    ['sub/main.gram', '../b.gram', 'sub/../b.gram'],
    ['/sub/main.gram', '../b.gram', '/b.gram'],
    ['sub/main.gram', '/b.gram', '/b.gram'],
    ['main.gram', '//host/b.gram', '//host/b.gram'],
    ['//host/x/main.gram', 'b.gram', '//host/x/b.gram'],
    ['http://host', '/b.gram', 'http://host/b.gram'],
    ['//host/x/main.gram', '/b.gram', '//host/b.gram'],
    ['a:x/y', '../z', 'a:z'],
    ['x/y:z', '//host/b.gram', '//host/b.gram'],
    ['main.gram#a', 'b.gram', 'b.gram'],
    ['sub/main.gram?x/y', 'b.gram', 'sub/b.gram'],
    ['a+b-c.1:x/y', 'z', 'a+b-c.1:x/z'],
    ['main.gram', '1a:b', '1a:b'],
  ])('from %s %s is %s', (base, reference, expected) => {
    expect(resolveUri(base, reference)).toBe(expected);
  });

  it.each([
    ['a/../b', 'b'],
    ['a/./b', 'a/b'],
    ['../a', '../a'],
    ['../../a', '../../a'],
    ['a/../../b', '../b'],
    ['/../a', '/a'],
    ['./a', 'a'],
  ])('%s without its dots is %s', (path, expected) => {
    expect(removeDots(path)).toBe(expected);
  });

  it('are parted from their fragment', () => {
    expect(splitFragment('a')).toEqual({ address: 'a', fragment: null });
    expect(splitFragment('a#')).toEqual({ address: 'a', fragment: '' });
    expect(splitFragment('#b')).toEqual({ address: '', fragment: 'b' });
    expect(splitFragment('a#b#c')).toEqual({ address: 'a', fragment: 'b#c' });
  });
});
