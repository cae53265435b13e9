/** The rules of an ABNF grammar (SRGS 1.0 sections 2 and 3): every sentence about a broken one, and the reader's bounds. */
import { describe, expect, it } from 'vitest';
import { entryRules } from '../../../../src/speech/grammar/srgs/srgs';
import { faultOf, grammarOf, HEAD } from './abnf-texts';
import { makeExpansion } from './make-abnf';

const NO_REPEAT = 'A repeat is written <3>, <0-1>, <2-5> or <1->.';
const NO_ADDRESS = 'An address must name a rule after "#", and not a reserved one.';
const NO_WEIGHT = 'A weight is a plain number between strokes, such as /0.5/.';

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

describe('where a grammar is entered (SRGS 4.7)', () => {
  it('at its root, else at every public rule', () => {
    const rules = 'public $a = x; $b = y; public $c = z;';
    expect(entryRules(grammarOf(`${HEAD}${rules}`))).toEqual(['a', 'c']);
    expect(entryRules(grammarOf(`${HEAD}root $b; ${rules}`))).toEqual(['b']);
  });
});
