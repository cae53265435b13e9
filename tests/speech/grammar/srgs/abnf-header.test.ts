/** The header of an ABNF grammar (SRGS 1.0 section 4): every sentence about a broken one, with its line and column. */
import { describe, expect, it } from 'vitest';
import { faultOf, grammarOf, HEAD } from './abnf-texts';

const FIRST_LINE = 'The first line must be "#ABNF 1.0;" or "#ABNF 1.0 UTF-8;", with nothing else on it.';

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
