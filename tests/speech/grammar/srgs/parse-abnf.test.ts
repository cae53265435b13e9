/** Reading the ABNF form: what is read, and where and why a broken grammar is refused (SRGS 1.0, clause beside each). */
import { describe, expect, it } from 'vitest';
import { parseAbnf } from '../../../../src/speech/grammar/srgs/parse-abnf';
import type { Expansion } from '../../../../src/speech/grammar/srgs/srgs';

const HEAD = '#ABNF 1.0;\nlanguage en;\n';

function body(text: string): Expansion {
  const read = parseAbnf('a.gram', `${HEAD}$r = ${text};`);
  if (!read.ok) throw new Error(read.detail);
  const [rule] = read.value.rules;
  if (rule === undefined) throw new Error('no rule');
  return rule.expansion;
}

const word = (text: string): Expansion => ({ kind: 'token', words: [text], quoted: false });

describe('expansions', () => {
  it.each<[string, string, Expansion]>([
    ['2.1 a word', 'stow', word('stow')],
    ['2.1 a word of figures', '2', word('2')],
    ['2.1 quotes, white space made single', '" New \n York "', { kind: 'token', words: ['New', 'York'], quoted: true }],
    ['2.2.3 a special rule', '$GARBAGE', { kind: 'special', name: 'GARBAGE' }],
    ['2.3 a sequence', 'a b', { kind: 'sequence', items: [word('a'), word('b')] }],
    ['2.3 nothing', '()', { kind: 'sequence', items: [] }],
    ['2.3 brackets alone add nothing', '((a))', word('a')],
    [
      '2.4.1 weights',
      '/10/ a | /.5/ b | c',
      {
        kind: 'choice',
        alternatives: [
          { weight: 10, expansion: word('a') },
          { weight: 0.5, expansion: word('b') },
          { weight: null, expansion: word('c') },
        ],
      },
    ],
    ['2.5 exactly', 'a<3>', { kind: 'repeat', item: word('a'), min: 3, max: 3, probability: null }],
    ['2.5 from and to', 'a <2-5>', { kind: 'repeat', item: word('a'), min: 2, max: 5, probability: null }],
    ['2.5 or more', 'a<1->', { kind: 'repeat', item: word('a'), min: 1, max: null, probability: null }],
    ['2.5.1 with probability', 'a< 0-1 /0.6/ >', { kind: 'repeat', item: word('a'), min: 0, max: 1, probability: 0.6 }],
    ['2.5 optional', '[a]', { kind: 'repeat', item: word('a'), min: 0, max: 1, probability: null }],
    ['2.7 language', 'oui!fr-CA', { kind: 'language', language: 'fr-CA', item: word('oui') }],
    [
      '2.7 language on a rule, as older grammars have it',
      '$NULL!en',
      { kind: 'language', language: 'en', item: { kind: 'special', name: 'NULL' } },
    ],
    [
      '2.8 language binds before repeat',
      'oui!fr<2>',
      {
        kind: 'repeat',
        item: { kind: 'language', language: 'fr', item: word('oui') },
        min: 2,
        max: 2,
        probability: null,
      },
    ],
    ['4.13 comments count for nothing', 'a /* b; */ // c;\n', word('a')],
    ['4.15 keywords are words like any other', 'root', word('root')],
  ])('%s: %s', (...[, text, expected]) => {
    expect(body(text)).toEqual(expected);
  });

  it.each([
    ['2.6 a tag', '{x = "{";}', 'x = "{";'],
    ['2.6 a long tag', '{!{ a } b }!}', ' a } b '],
  ])('%s', (...[, text, content]) => {
    expect(body(text)).toMatchObject({ kind: 'tag', content, place: { line: 3, column: 6 } });
  });

  it.each([
    ['2.2.2 root of another grammar', '$<a/b.gram>', { uri: 'a/b.gram', rule: null, mediaType: null }],
    ['2.2.2 rule of another grammar', '$<b.gram#c>', { uri: 'b.gram', rule: 'c', mediaType: null }],
    ['2.2.2 media type', '$<b.gram#c>~<application/srgs>', { mediaType: 'application/srgs' }],
    ['RFC 3986 4.4 this very document', '$<#r>', { uri: null, rule: 'r' }],
  ])('%s', (...[, text, expected]) => {
    expect(body(text)).toMatchObject({ kind: 'reference', ...expected });
  });
});

describe('header', () => {
  it('reads every declaration (4.1 to 4.12)', () => {
    const read = parseAbnf(
      'a.gram',
      `\uFEFF#ABNF 1.0 UTF-8;\r
mode voice; language en-US; root $r;
tag-format <semantics/1.0>; base <http://grammars.example/x/>;
lexicon <l.pls>; lexicon <m.pls>~<application/pls+xml>;
meta "author" is 'Q "R" S'; http-equiv 'Date' is "today"; {var x = 1};
$r = a;`,
    );
    expect(read).toMatchObject({
      ok: true,
      value: {
        header: {
          encoding: 'UTF-8',
          mode: 'voice',
          language: 'en-US',
          root: 'r',
          tagFormat: 'semantics/1.0',
          base: 'http://grammars.example/x/',
          lexicons: [
            { uri: 'l.pls', mediaType: null },
            { uri: 'm.pls', mediaType: 'application/pls+xml' },
          ],
          metas: [
            { kind: 'meta', name: 'author', content: 'Q "R" S' },
            { kind: 'http-equiv', name: 'Date', content: 'today' },
          ],
          tags: [{ content: 'var x = 1' }],
        },
      },
    });
  });

  it('knows public rules from private ones, and takes an unmarked one as private (3.2)', () => {
    const read = parseAbnf('a.gram', `${HEAD}public $a = x; private $b = x; $c = x;`);
    expect(read.ok && read.value.rules.map(({ name, scope }) => [name, scope])).toEqual([
      ['a', 'public'],
      ['b', 'private'],
      ['c', 'private'],
    ]);
  });
});

describe('a broken grammar is refused with the place and a sentence', () => {
  it.each([
    ['4.2 no first line', 'language en;\n$r = a;', '1:1', 'first line'],
    ['4.2 wrong version', '#ABNF 2.0;\n', '1:1', 'first line'],
    ['4.2 two spaces', '#ABNF  1.0;\n', '1:1', 'first line'],
    ['4.5 no language', '#ABNF 1.0;\n$r = a;', '1:1', 'must declare its language'],
    ['4.5 no such language', '#ABNF 1.0;\nlanguage e_n;\n', '2:10', 'not a language code'],
    ['4.6 no such mode', '#ABNF 1.0;\nmode song;\n', '2:6', 'voice or dtmf'],
    ['4.1 twice', '#ABNF 1.0;\nlanguage en;\n language en;\n', '3:2', 'declared twice'],
    ['4.1 no semicolon', '#ABNF 1.0;\nlanguage en\nmode voice;\n', '3:1', 'Expected ";"'],
    ['4.1 declaration after a rule', `${HEAD}$r = a;\nmode voice;`, '4:1', 'Expected a rule'],
    ['4.7 root that is not there', '#ABNF 1.0;\nlanguage en;\nroot $x;\n$r = a;', '1:1', '$x is not defined'],
    ['4.11 no "is"', `#ABNF 1.0;\nmeta "a" = "b";`, '2:10', 'Expected "is"'],
    ['4.9 address with a space', '#ABNF 1.0;\nbase <a b>;\n', '2:6', 'not an address'],
    ['4.13 open comment', `${HEAD}$r = a /* b;`, '3:8', 'never closed'],
    ['3.1 name with a hyphen', `${HEAD}$a-b = c;`, '3:1', 'not a legal rule name'],
    ['3.1 name that begins with a figure', `${HEAD}$1a = c;`, '3:1', 'not a legal rule name'],
    ['3.1 reserved name', `${HEAD}$VOID = c;`, '3:1', 'reserved'],
    ['3.1 defined twice', `${HEAD}$a = b;\n  public $a = c;`, '4:3', 'defined twice'],
    ['3.1 not ended', `${HEAD}$a = b`, '3:7', 'Expected ";"'],
    ['3.1 nothing in it', `${HEAD}$a = ;`, '3:6', 'Expected words'],
    ['2.4 empty branch', `${HEAD}$a = b | | c;`, '3:10', 'Expected words'],
    ['2.4 open bracket', `${HEAD}$a = (b | c;`, '3:12', 'Expected ")"'],
    ['2.4.1 bad weight', `${HEAD}$a = /1e3/ b | c;`, '3:6', 'weight is a plain number'],
    ['2.4.1 weight below nought', `${HEAD}$a = /-1/ b | c;`, '3:6', 'weight is a plain number'],
    ['2.2.1 undefined rule', `${HEAD}$a = b\n   $c;`, '4:4', '$c is not defined'],
    ['2.2.2 address without a rule', `${HEAD}$a = $<b.gram#>;`, '3:6', 'must name a rule'],
    ['2.2.3 special rule elsewhere', `${HEAD}$a = $<b.gram#NULL>;`, '3:6', 'not a reserved one'],
    ['2.2.2 bad media type', `${HEAD}$a = $<b.gram>~<srgs>;`, '3:15', 'not a media type'],
    ['2.5 backwards', `${HEAD}$a = b<3-2>;`, '3:7', 'runs backwards'],
    ['2.5 no number', `${HEAD}$a = b<n>;`, '3:7', 'A repeat is written'],
    ['2.5 too many', `${HEAD}$a = b<99999>;`, '3:7', 'at most'],
    ['2.5 twice', `${HEAD}$a = b<2><2>;`, '3:10', 'Expected ";"'],
    ['2.5.1 probability above one', `${HEAD}$a = b<0-1 /1.5/>;`, '3:7', 'between 0 and 1'],
    ['2.6 open tag', `${HEAD}$a = b {c;`, '3:9', 'never closed'],
    ['2.7 bad language', `${HEAD}$a = b!;`, '3:7', 'not a language'],
    ['2.1 empty quotes', `${HEAD}$a = " ";`, '3:6', 'empty'],
    ['2.1 a sign that is no word', `${HEAD}$a = b's;`, '3:7', 'Expected ";"'],
    ['nested beyond reason', `${HEAD}$a = ${'('.repeat(200)}b${')'.repeat(200)};`, '3:107', 'nested'],
  ])('%s', (...[, text, place, sentence]) => {
    const read = parseAbnf('a.gram', text);
    expect(read).toMatchObject({ ok: false, reason: 'bad-grammar' });
    expect(read.ok ? '' : read.detail).toMatch(new RegExp(`^a\\.gram:${place}: `));
    expect(read.ok ? '' : read.detail).toContain(sentence);
  });
});
