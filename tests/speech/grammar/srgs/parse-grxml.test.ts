/** The XML form of SRGS 1.0: each construct beside its ABNF twin, and every sentence about a broken document. */
import { describe, expect, it } from 'vitest';
import { parseGrxml } from '../../../../src/speech/grammar/srgs/parse-grxml';
import { readGrammar } from '../../../../src/speech/grammar/srgs/read-grammar';
import type { Grammar } from '../../../../src/speech/grammar/srgs/srgs';
import { grammarOf, HEAD } from './abnf-texts';
import { withoutPlaces } from './any-grammar';

const OPEN = '<grammar version="1.0" xmlns="http://www.w3.org/2001/06/grammar" xml:lang="en">';

function xmlOf(text: string): Grammar {
  const read = parseGrxml('a.grxml', text);
  if (!read.ok) throw new Error(read.detail);
  return read.value;
}

function faultOf(text: string): string {
  const read = parseGrxml('a.grxml', text);
  return read.ok ? 'read' : read.detail;
}

describe('an expansion is the same node in both forms', () => {
  it.each([
    ['2.1 words', 'tie the locks', 'tie the locks'],
    ['2.1 a token of two words', '<token>locking  stow</token>', '"locking stow"'],
    ['2.1 a token of two words in quotes', 'one "locking stow" more', 'one "locking stow" more'],
    ['2.1 a word that ABNF must quote', "rigger's loft", '"rigger\'s" loft'],
    ['2.1 characters by number', 'caf&#xE9; &#60;3', 'café "<3"'],
    ['2.2.1 a rule of this grammar', '<ruleref uri="#r"/>', '$r'],
    ['2.2.2 a rule elsewhere', '<ruleref uri="b.grxml#s"/>', '$<b.grxml#s>'],
    ['2.2.2 the root elsewhere', '<ruleref uri="b.grxml"/>', '$<b.grxml>'],
    ['2.2.2 with a media type', '<ruleref uri="b#s" type="application/srgs+xml"/>', '$<b#s>~<application/srgs+xml>'],
    ['2.2.3 nothing', '<ruleref special="NULL"/>', '$NULL'],
    ['2.2.3 what cannot be said', 'a <ruleref special="VOID"/>', 'a $VOID'],
    ['2.2.3 anything', '<ruleref special="GARBAGE"/> a', '$GARBAGE a'],
    ['2.3 a group', 'a <item>b c</item> d', 'a (b c) d'],
    ['2.3 an empty group', '<item/>', '()'],
    ['2.4 alternatives', '<one-of><item>left</item> <item>right side</item></one-of>', '(left | right side)'],
    [
      '2.4.1 weights',
      '<one-of><item weight="2">a</item><item weight=".5"><item>b</item></item><item>c</item></one-of>',
      '(/2/ a | /.5/ b | c)',
    ],
    ['2.4.1 one alternative with a weight', '<one-of><item weight="12.25">a</item></one-of>', '(/12.25/ a)'],
    ['2.4.1 a fraction alone', '<one-of><item weight=".25">a</item></one-of>', '(/.25/ a)'],
    ['2.2 white space in a reference', '<ruleref uri="#r"> </ruleref>', '$r'],
    ['2.4 one alternative', '<one-of><item>a</item></one-of>', 'a'],
    ['2.5 exactly', '<item repeat="3">a b</item>', '(a b)<3>'],
    ['2.5 with white space around', '<item repeat=" 3 ">a</item>', 'a<3>'],
    ['2.6 a mark that is no byte order mark', '<tag>a\uFEFFb</tag>', '{a\uFEFFb}'],
    ['2.5 from and to', '<item repeat="2-4">a</item>', 'a<2-4>'],
    ['2.5 at least', '<item repeat="1-">a</item>', 'a<1->'],
    ['2.5 at most once', '<item repeat="0-1">a</item>', '[a]'],
    ['2.5.1 with a probability', '<item repeat="0-" repeat-prob="0.25">a</item>', 'a<0- /0.25/>'],
    ['2.5.1 a probability without a repeat says nothing', '<item repeat-prob="0.25">a</item>', 'a'],
    ['2.6 a tag', 'a <tag>out = 1 &lt; 2;</tag>', 'a {out = 1 < 2;}'],
    ['2.6 a tag in CDATA', '<tag><![CDATA[out = {a: "<"};]]></tag>', '{!{out = {a: "<"};}!}'],
    ['2.7 the language of a token', '<token xml:lang="fr">bonjour</token>', '"bonjour"!fr'],
    ['2.7 the language of a group', '<item xml:lang="fr">un deux</item>', '(un deux)!fr'],
    [
      '2.7 the language of alternatives',
      '<one-of xml:lang="fr"><item>un</item><item>deux</item></one-of>',
      '(un | deux)!fr',
    ],
    ['2.7 and 2.5 together', '<item repeat="2" xml:lang="fr">un</item>', 'un!fr <2>'],
    ['3.3 examples are not said', '<example>a b</example> a b', 'a b'],
    ['4.13 comments', 'a <!-- b --> c <?d e?>', 'a c'],
  ])('%s', (_, xml, abnf) => {
    const [fromXml] = xmlOf(`${OPEN}<rule id="r">${xml}</rule></grammar>`).rules;
    const [fromAbnf] = grammarOf(`${HEAD}$r = ${abnf};`).rules;
    expect(withoutPlaces(fromXml)).toEqual(withoutPlaces(fromAbnf));
  });
});

describe('a header is the same in both forms', () => {
  it('with everything', () => {
    const xml = xmlOf(`\uFEFF<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE grammar PUBLIC "-//W3C//DTD GRAMMAR 1.0//EN" "http://www.w3.org/TR/speech-grammar/grammar.dtd">
<grammar xmlns="http://www.w3.org/2001/06/grammar" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"
  xsi:schemaLocation="http://www.w3.org/2001/06/grammar grammar.xsd" version="1.0" xml:lang="en-GB" mode="voice"
  root="main" tag-format="semantics/1.0" xml:base="http://grammars.example/loft/">
  <lexicon uri="words.pls" type="application/pls+xml"/>
  <meta name="author" content="  our loft "/>
  <meta http-equiv="Expires" content="0"/>
  <metadata><note xmlns="urn:notes"><rule/></note></metadata>
  <tag>var n = 1;</tag>
  <rule id="main" scope="public">stow</rule>
  <rule id="other" scope="private">count</rule>
</grammar>`);
    const abnf = grammarOf(`#ABNF 1.0 UTF-8;
language en-GB; mode voice; root $main; tag-format <semantics/1.0>; base <http://grammars.example/loft/>;
lexicon <words.pls>~<application/pls+xml>;
meta "author" is "  our loft "; http-equiv "Expires" is "0";
{var n = 1;};
public $main = stow; private $other = count;`);
    expect(withoutPlaces({ ...xml, file: '', form: '' })).toEqual(withoutPlaces({ ...abnf, file: '', form: '' }));
    expect([xml.form, abnf.form]).toEqual(['xml', 'abnf']);
  });

  it('with the least', () => {
    const xml = xmlOf('<grammar version="1.0" xmlns="http://www.w3.org/2001/06/grammar" mode="dtmf"/>');
    expect(xml.header).toEqual(grammarOf('#ABNF 1.0;\nmode dtmf;').header);
    expect(xml.rules).toEqual([]);
  });
});

describe('other vocabularies are left out (SRGS 5.1)', () => {
  it.each([
    ['elements and attributes', `<x:a xmlns:x="urn:x">said <b/></x:a> stow <item x:y="1">line</item>`],
    ['elements without a prefix', `<a xmlns="urn:x">said</a> stow <item>line</item>`],
  ])('%s', (_, content) => {
    const read = xmlOf(`${OPEN}<rule id="r">${content}</rule></grammar>`);
    expect(withoutPlaces(read.rules[0]?.expansion)).toEqual(
      withoutPlaces(grammarOf(`${HEAD}$r = stow (line);`).rules[0]?.expansion),
    );
  });

  it('and SRGS may have a prefix itself', () => {
    const read = xmlOf(
      '<g:grammar version="1.0" xmlns:g="http://www.w3.org/2001/06/grammar" xml:lang="en"><g:rule id="r">a<b>c</b></g:rule></g:grammar>',
    );
    expect(read.rules[0]?.expansion).toEqual({ kind: 'token', words: ['a'], quoted: false });
  });
});

describe('places', () => {
  it('are where an element begins', () => {
    const read = xmlOf(`${OPEN}\n  <rule id="r">é\u{1F602}<tag>x</tag>\r\n <ruleref uri="#r"/></rule></grammar>`);
    expect(read.rules[0]?.place).toEqual({ line: 2, column: 3 });
    expect(read.rules[0]?.expansion).toMatchObject({
      items: [{}, { place: { line: 2, column: 19 } }, { place: { line: 3, column: 2 } }],
    });
  });
});

describe('a broken document is refused with its place', () => {
  const head = '<grammar version="1.0" xmlns="http://www.w3.org/2001/06/grammar"';
  it.each([
    ['', '1:1: This is not well-formed XML: Root element is missing or invalid.'],
    ['<grammar>', '1:10: This is not well-formed XML: Missing end tag for element grammar.'],
    [
      `${OPEN}\n<rule id="r">&loft;</rule></grammar>`,
      `2:14: This is not well-formed XML: Named entity isn't defined: &loft;.`,
    ],
    [
      `<!DOCTYPE grammar [<!ENTITY a "aaaa">]>\n${OPEN}</grammar>`,
      '1:1: A document type must not declare anything itself; remove what stands in "[ ]".',
    ],
    [
      '<grammar version="1.0"/>',
      '1:1: The document must be a <grammar> in the namespace "http://www.w3.org/2001/06/grammar".',
    ],
    [
      '<rule xmlns="http://www.w3.org/2001/06/grammar"/>',
      '1:1: The document must be a <grammar> in the namespace "http://www.w3.org/2001/06/grammar".',
    ],
    [OPEN.replace('1.0', '1.1') + '</grammar>', '1:1: The version of a <grammar> must be "1.0".'],
    [`${head} mode="talk"/>`, '1:1: The mode must be voice or dtmf, not "talk".'],
    [`${head}/>`, '1:1: A spoken grammar must declare its language, for example xml:lang="en-US".'],
    [`${head} xml:lang="e_n"/>`, '1:1: "e_n" is not a language code such as en-US.'],
    [`${head} xml:lang="en" root="a-b"/>`, '1:1: "a-b" is not a legal rule name.'],
    [`${head} xml:lang="en" root="a"/>`, '1:1: The root $a is not defined in this grammar.'],
    [`${head} xml:lang="en" tag-format="a b"/>`, '1:1: "a b" is not an address.'],
    [`${head} xml:lang="en" xml:base=""/>`, '1:1: "" is not an address.'],
    [`${head} xml:lang="en" speed="5"/>`, '1:1: <grammar> has no attribute "speed".'],
  ])('%s', (text, sentence) => {
    expect(faultOf(text)).toBe(`a.grxml:${sentence}`);
  });

  it.each([
    ['<lexicon/>', '"" is not an address.'],
    ['<lexicon uri="l" type="x"/>', '"x" is not a media type.'],
    ['<meta name="a"/>', '<meta> must have "content", and either "name" or "http-equiv".'],
    ['<meta content="a"/>', '<meta> must have "content", and either "name" or "http-equiv".'],
    ['<meta name="a" http-equiv="b" content="c"/>', '<meta> must have "content", and either "name" or "http-equiv".'],
    ['stow', 'Words must stand inside a <rule>.'],
    ['<item>stow</item>', '<item> is nothing that a grammar may hold.'],
    ['<tag x="1">a</tag>', '<tag> has no attribute "x".'],
    ['<tag>a<b/></tag>', '<tag> holds text and no elements.'],
    ['<rule/>', '"" is not a legal rule name.'],
    ['<rule id="a.b">x</rule>', '"a.b" is not a legal rule name.'],
    ['<rule id="NULL">x</rule>', '$NULL is reserved and cannot be defined.'],
    ['<rule id="a" scope="global">x</rule>', 'The scope must be public or private, not "global".'],
    ['<rule id="a"/>', 'Rule $a is empty; write <item/> or <ruleref special="NULL"/> for nothing.'],
    [
      '<rule id="a"> <example>a</example> </rule>',
      'Rule $a is empty; write <item/> or <ruleref special="NULL"/> for nothing.',
    ],
  ])('at %s', (element, sentence) => {
    expect(faultOf(`${OPEN}\n${element}</grammar>`)).toMatch(new RegExp(`^a\\.grxml:[12]:\\d+: `));
    expect(faultOf(`${OPEN}\n${element}</grammar>`).replace(/^[^ ]* /, '')).toBe(sentence);
  });

  it.each([
    ['<count/>', '<count> is no part of a rule.'],
    ['<item><example>a</example></item>', '<example> is no part of a rule.'],
    ['<token> </token>', 'A token is empty; write <item/> for nothing.'],
    ['<token>a<item/></token>', '<token> holds text and no elements.'],
    ['<token xml:lang="e_n">a</token>', '"e_n" is not a language such as en-US.'],
    ['"a', 'This quoted token is never closed: add """.'],
    ['a "" b', 'A token is empty; write <item/> for nothing.'],
    ['<ruleref/>', '<ruleref> must have either "uri" or "special".'],
    ['<ruleref uri="#r" special="NULL"/>', '<ruleref> must have either "uri" or "special".'],
    ['<ruleref special="ALL"/>', '"ALL" is not NULL, VOID or GARBAGE.'],
    ['<ruleref uri=""/>', '"" is not an address.'],
    ['<ruleref uri="#"/>', 'An address must name a rule after "#", and not a reserved one.'],
    ['<ruleref uri="#VOID"/>', 'An address must name a rule after "#", and not a reserved one.'],
    ['<ruleref uri="b" type="x"/>', '"x" is not a media type.'],
    ['<ruleref uri="#r">a</ruleref>', '<ruleref> must be empty.'],
    ['<ruleref uri="#s"/>', '$s is not defined in this grammar.'],
    ['<one-of/>', '<one-of> needs an <item>.'],
    ['<one-of>a<item>b</item></one-of>', '<one-of> holds <item> elements alone.'],
    ['<one-of><token>b</token></one-of>', '<one-of> holds <item> elements alone.'],
    ['<one-of><item weight="x">b</item></one-of>', 'A weight is a plain number, such as 0.5.'],
    ['<item repeat="1" repeat-prob="1e1">a</item>', 'A probability is a plain number, such as 0.5.'],
    ['<item repeat="1" repeat-prob="2">a</item>', 'A probability lies between 0 and 1.'],
    ['<item repeat="">a</item>', 'A repeat is written "3", "0-1", "2-5" or "1-".'],
    ['<item repeat="2-3x">a</item>', 'A repeat is written "3", "0-1", "2-5" or "1-".'],
    ['<tag x="1">a</tag>', '<tag> has no attribute "x".'],
    ['<item repeat="-2">a</item>', 'A repeat is written "3", "0-1", "2-5" or "1-".'],
    ['<item repeat="2-1">a</item>', 'A repeat from 2 to 1 runs backwards.'],
    ['<item repeat="10001">a</item>', 'Repeats go to 10000 at most.'],
    ['<item count="2">a</item>', '<item> has no attribute "count".'],
  ])('within a rule: %s', (content, sentence) => {
    expect(faultOf(`${OPEN}\n<rule id="r">${content}</rule></grammar>`)).toMatch(/^a\.grxml:2:\d+: /);
    expect(faultOf(`${OPEN}\n<rule id="r">${content}</rule></grammar>`).replace(/^[^ ]* /, '')).toBe(sentence);
  });

  it('header elements behind a rule, and rules of one name', () => {
    const rule = '<rule id="r">a</rule>';
    expect(faultOf(`${OPEN}${rule}<meta name="a" content="b"/></grammar>`)).toContain(
      '<meta> must stand before the first <rule>.',
    );
    expect(faultOf(`${OPEN}${rule}\n ${rule}</grammar>`)).toBe('a.grxml:2:2: Rule $r is defined twice; rename one.');
  });
});

describe('bounds of the reader', () => {
  const rule = (content: string): string => `${OPEN}<rule id="r">${content}</rule></grammar>`;

  it('a million characters', () => {
    const text = rule('a');
    expect(faultOf(text.padEnd(1_000_000))).toBe('read');
    expect(faultOf(text.padEnd(1_000_001))).toBe('a.grxml:1:1: A grammar may have 1000000 characters at most.');
  });

  it('a hundred elements within one another', () => {
    const nested = (depth: number): string => rule(`${'<item>'.repeat(depth)}a${'</item>'.repeat(depth)}`);
    expect(faultOf(nested(100))).toBe('read');
    expect(faultOf(nested(101))).toContain('Elements are nested more than 100 deep.');
    expect(faultOf(nested(60_000))).toContain('nested');
    const choices = (depth: number): string =>
      rule(`${'<one-of><item>'.repeat(depth)}a${'</item></one-of>'.repeat(depth)}`);
    expect(faultOf(choices(50))).toBe('read');
    expect(faultOf(choices(51))).toContain('Elements are nested more than 100 deep.');
  });
});

describe('either form is told by its first characters', () => {
  it.each([
    [`${OPEN}<rule id="r">a</rule></grammar>`, 'xml'],
    [`\uFEFF \n${OPEN}<rule id="r">a</rule></grammar>`, 'xml'],
    [`${HEAD}$r = a;`, 'abnf'],
    [`\uFEFF${HEAD}$r = a;`, 'abnf'],
  ])('%j', (text, form) => {
    const read = readGrammar(text);
    expect(read.ok ? read.value.form : read.detail).toBe(form);
  });

  it('and a refusal names the file', () => {
    expect(readGrammar('stow')).toMatchObject({ ok: false, detail: expect.stringMatching(/^grammar:1:1: /) });
    expect(readGrammar('<a/>', 'b.grxml')).toMatchObject({
      reason: 'bad-grammar',
      detail: expect.stringMatching(/^b\.grxml:1:1: /),
    });
  });
});
