/** The recogniser's grammar to the letter: each form that it is written in, each bound, each reason to refuse. */
import { describe, expect, it } from 'vitest';
import { makeJsgf } from '../../../../src/speech/grammar/jsgf/make-jsgf';
import { rules } from '../linked';

const LOOP = { phones: ['AA', 'B'], weight: 0.5, wordOf: (phone: string) => `ph_${phone.toLowerCase()}` };

/** What is written for the right-hand side of rule $r. */
function written(text: string): string {
  const made = makeJsgf(rules(`$r = ${text};`), ['r']);
  if (!made.ok) return `${made.reason}: ${made.detail}`;
  const line = made.value.jsgf.split('\n').find((one) => one.startsWith('<r0_r> = '));
  return (line ?? '').slice('<r0_r> = '.length, -1);
}

describe('each form', () => {
  it.each([
    ['a', 'a'],
    ['"a b"', 'a b'],
    ['a b', 'a b'],
    ['()', '<NULL>'],
    ['{x}', '<NULL>'],
    ['a {x} b', 'a b'],
    ['{x} {y}', '<NULL>'],
    ['a | b', '(a | b)'],
    ['a | $VOID', 'a'],
    ['/2/ a | $VOID', '(/2.0/ a)'],
    ['/2/ a | b | /0.25/ c', '(/2.0/ a | /1.0/ b | /0.25/ c)'],
    ['[a]', '[a]'],
    ['[a b]', '[a b]'],
    ['a<0>', '<NULL>'],
    ['($VOID)<0-3>', '<NULL>'],
    ['({x})<3>', '<NULL>'],
    ['a<3>', 'a a a'],
    ['(a b)<2>', '(a b) (a b)'],
    ['(a | b)<2>', '((a | b)) ((a | b))'],
    ['a<0->', 'a*'],
    ['a<1->', 'a+'],
    ['a<3->', 'a a a+'],
    ['(a b)<0->', '(a b)*'],
    ['(a b)<2->', '(a b) (a b)+'],
    ['a<1-3>', 'a [a [a]]'],
    ['a<0-2>', '[a [a]]'],
    ['(a b)<1-2>', '(a b) [a b]'],
    ['"o\'clock" "o\'clock"<0->', "o'clock o'clock*"],
    ['A<0->', 'A*'],
    ['B2<0->', '(B2)*'],
    ['größe', 'größe'],
    ['"a.b_c-d"', 'a.b_c-d'],
    ['"2nd"', '2nd'],
  ])('%s is %s', (text, expected) => {
    expect(written(text)).toBe(expected);
  });

  it('a rule is written once, before what refers to it, under a name of its own', () => {
    const made = makeJsgf(rules('$r = $sub_ü $sub_ü<0->; $sub_ü = a; $other = b;'), ['r']);
    expect(made.ok && made.value).toEqual({
      jsgf: `#JSGF V1.0;
grammar commands;
public <utterance> = <r0_r>;
<r1_sub__> = a;
<r0_r> = <r1_sub__> <r1_sub__>*;
`,
      words: ['a'],
    });
  });

  it('what is repeated as a whole is bracketed as a whole', () => {
    const line = (text: string): string => {
      const made = makeJsgf(rules(`$r = ${text}; $s = b;`), ['r']);
      return made.ok ? (made.value.jsgf.split('\n').find((one) => one.startsWith('<r0_r>')) ?? '') : made.detail;
    };
    expect(line('(a $s)<0->')).toBe('<r0_r> = (a <r1_s>)*;');
    expect(line('($s a)<1->')).toBe('<r0_r> = (<r1_s> a)+;');
    expect(line('($s $s)<2>')).toBe('<r0_r> = (<r1_s> <r1_s>) (<r1_s> <r1_s>);');
    expect(line('$s<2->')).toBe('<r0_r> = <r1_s> <r1_s>+;');
  });

  it('several rules lie side by side, and without one there is nothing to hear', () => {
    const grammar = rules('$r = b; $s = a;');
    const both = makeJsgf(grammar, ['r', 's', 'r']);
    expect(both.ok && both.value.jsgf).toContain('public <utterance> = <r0_r> | <r1_s> | <r0_r>;');
    expect(both.ok && both.value.words).toEqual(['a', 'b']);
    const none = makeJsgf(grammar, []);
    expect(none.ok && none.value).toEqual({
      jsgf: '#JSGF V1.0;\ngrammar commands;\npublic <utterance> = <VOID>;\n',
      words: [],
    });
  });

  it.each([
    [0.5, '/0.5/'],
    [25, '/25.0/'],
    [1e-30, '/1e-30/'],
    [1e21, '/1e+21/'],
  ])('the loop with weight %d', (weight, text) => {
    const made = makeJsgf(rules('$r = a;'), ['r'], { loop: { ...LOOP, weight } });
    expect(made.ok && made.value.jsgf.split('\n').slice(2, 6)).toEqual([
      `public <utterance> = /1.0/ <command> | ${text} <other>;`,
      '<command> = <r0_r>;',
      '<other> = <phone>+;',
      '<phone> = ph_aa | ph_b;',
    ]);
  });

  it('a void branch beside garbage, and garbage beside the loop', () => {
    const made = makeJsgf(rules('$r = a $GARBAGE ($VOID | b);'), ['r'], { loop: LOOP });
    expect(made.ok && made.value.jsgf).toContain('<r0_r> = a [<other>] b;');
  });
});

describe('what the recogniser cannot take says what and where', () => {
  it.each([
    ['$r = a;', 'x', 'unknown-rule: There is no rule $x in main.gram.'],
    ['$r = $s; $s = a $r | b;', 'r', 'recursive-rule: $r in main.gram refers to itself; the recogniser cannot.'],
    ['$r = $VOID;', 'r', 'unspeakable: $r in main.gram can never be said.'],
    ['$r = a $s; $s = $VOID;', 'r', 'unspeakable: $r in main.gram can never be said.'],
    ['$r = $GARBAGE a;', 'r', 'unspeakable: $GARBAGE needs the phone loop.'],
    ['$r = "a;b";', 'r', 'bad-word: "a;b" cannot be written in the recogniser\'s grammar.'],
    ['$r = "<a>";', 'r', 'bad-word: "<a>" cannot be written in the recogniser\'s grammar.'],
    ['$r = -a;', 'r', 'bad-word: "-a" cannot be written in the recogniser\'s grammar.'],
    ['$r = "a(2)";', 'r', 'bad-word: "a(2)" cannot be written in the recogniser\'s grammar.'],
    ['$r = a<101>;', 'r', 'too-large: The recogniser repeats 100 times at most.'],
    ['$r = a<0-101>;', 'r', 'too-large: The recogniser repeats 100 times at most.'],
    ['$r = a<101->;', 'r', 'too-large: The recogniser repeats 100 times at most.'],
    ['$r = ((a<100>)<100>)<100>;', 'r', 'too-large: The grammar is too large for the recogniser.'],
    ['$r = ((a<0-100>)<0-100>)<0-100>;', 'r', 'too-large: The grammar is too large for the recogniser.'],
  ])('%s', (text, name, expected) => {
    const made = makeJsgf(rules(text), [name]);
    expect(made.ok ? 'made' : `${made.reason}: ${made.detail}`).toBe(expected);
  });

  it.each(['a<100>', 'a<0-100>', 'a<100->'])('%s is not yet too much', (text) => {
    expect(makeJsgf(rules(`$r = ${text};`), ['r']).ok).toBe(true);
  });

  it('nor are 500,000 characters', () => {
    // One word in each rule; "<r0_r> = " and the semicolon are ten characters more.
    const lineOf = (length: number) => makeJsgf(rules(`$r = ${'x'.repeat(length - 10)};`), ['r']);
    expect(lineOf(500_000).ok).toBe(true);
    expect(lineOf(500_001)).toEqual({
      ok: false,
      reason: 'too-large',
      detail: 'The grammar is too large for the recogniser.',
    });
  });
});
