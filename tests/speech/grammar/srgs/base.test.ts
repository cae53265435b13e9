/** What relative references of a grammar are resolved against (SRGS 4.9, 4.9.1), and across the two forms. */
import { describe, expect, it } from 'vitest';
import { linkGrammar } from '../../../../src/speech/grammar/srgs/link';
import { readGrammar } from '../../../../src/speech/grammar/srgs/read-grammar';

const ABNF = '#ABNF 1.0;\nlanguage en;\n';
const XML = '<grammar version="1.0" xmlns="http://www.w3.org/2001/06/grammar" xml:lang="en"';

/** Addresses that are asked for, where there is a grammar with a rule $s at each. */
function askedFor(text: string, file = 'http://table.example/loft/main.gram'): readonly string[] {
  const read = readGrammar(text, file);
  if (!read.ok) throw new Error(read.detail);
  const asked: string[] = [];
  const linked = linkGrammar(read.value, (address) => {
    asked.push(address);
    return `${ABNF}public $s = stow;`;
  });
  if (!linked.ok) throw new Error(linked.detail);
  return asked;
}

describe('a relative reference starts', () => {
  it.each([
    ['from the grammar itself', '', 'http://table.example/loft/s.gram'],
    ['from the declared base', 'base <http://words.example/a/>;', 'http://words.example/a/s.gram'],
    ['from a base that is relative to the grammar', 'base <./words/>;', 'http://table.example/loft/words/s.gram'],
    ['from "meta base"', 'meta "base" is "http://words.example/b/";', 'http://words.example/b/s.gram'],
    ['from "meta Base"', "meta 'Base' is '../b/';", 'http://table.example/b/s.gram'],
    ['from "http-equiv base"', 'http-equiv "base" is "http://words.example/c/";', 'http://words.example/c/s.gram'],
    [
      'from the declared base before "meta base"',
      'meta "base" is "http://words.example/b/"; base <http://words.example/a/>;',
      'http://words.example/a/s.gram',
    ],
    ['from no other meta', 'meta "basis" is "http://words.example/b/";', 'http://table.example/loft/s.gram'],
  ])('%s', (_, declaration, address) => {
    expect(askedFor(`${ABNF}${declaration}\n$r = $<s.gram#s>;`)).toEqual([address]);
  });

  it.each([
    ['from the grammar itself', '', '', 'http://table.example/loft/s.gram'],
    ['from xml:base', ' xml:base="http://words.example/a/"', '', 'http://words.example/a/s.gram'],
    ['from <meta name="base">', '', '<meta name="base" content="../b/"/>', 'http://table.example/b/s.gram'],
    [
      'from xml:base before <meta>',
      ' xml:base="http://words.example/a/"',
      '<meta name="base" content="../b/"/>',
      'http://words.example/a/s.gram',
    ],
  ])('in XML: %s', (...[, attribute, meta, address]) => {
    const rule = '<rule id="r"><ruleref uri="s.gram#s"/></rule>';
    expect(askedFor(`${XML}${attribute}>${meta}${rule}</grammar>`)).toEqual([address]);
  });

  it('and an absolute one stays as it is', () => {
    expect(askedFor(`${ABNF}base <http://words.example/a/>;\n$r = $<http://x.example/../s?t/../u#s>;`)).toEqual([
      'http://x.example/s?t/../u',
    ]);
  });
});

describe('a grammar of one form may refer to one of the other', () => {
  const others: Readonly<Record<string, string>> = {
    'a.gram': `${ABNF}public $s = stow;`,
    'a.grxml': `${XML}><rule id="s" scope="public">stow</rule></grammar>`,
  };
  const link = (reference: string): string => {
    const read = readGrammar(`${ABNF}$r = ${reference};`, 'main.gram');
    if (!read.ok) throw new Error(read.detail);
    const linked = linkGrammar(read.value, (address) => others[address] ?? null);
    return linked.ok ? 'linked' : linked.detail;
  };

  it.each([
    '$<a.gram#s>',
    '$<a.grxml#s>',
    '$<a.gram#s>~<application/srgs>',
    '$<a.grxml#s>~<application/srgs+xml>',
    '$<a.grxml#s>~<application/srgs+xml;charset=utf-8>',
  ])('%s', (reference) => {
    expect(link(reference)).toBe('linked');
  });

  it.each([
    ['$<a.gram#s>~<application/srgs+xml>', '"a.gram" is an ABNF grammar, not application/srgs+xml.'],
    ['$<a.grxml#s>~<application/srgs>', '"a.grxml" is an XML grammar, not application/srgs.'],
    ['$<a.grxml#s>~<application/srgs+xmlx>', '"a.grxml" is an XML grammar, not application/srgs+xmlx.'],
  ])('%s is refused: the media type must be true (SRGS 2.2.2)', (reference, sentence) => {
    expect(link(reference)).toBe(`main.gram:3:6: ${sentence}`);
  });
});
