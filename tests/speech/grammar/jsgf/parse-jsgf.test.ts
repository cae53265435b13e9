/** JSGF texts: what is read, and what is refused with a reason. */
import { describe, expect, it } from 'vitest';
import { parseJsgf } from '../../../../src/speech/grammar/jsgf/parse-jsgf';

const head = '#JSGF V1.0 UTF-8 en; grammar test;';
const only = (body: string) => {
  const parsed = parseJsgf(`${head} ${body}`);
  if (!parsed.ok) throw new Error(parsed.detail);
  return parsed.value;
};
const word = (text: string) => ({ kind: 'word', word: text });

describe('reading', () => {
  it.each([
    ['words in a row', 'stand by', { kind: 'sequence', items: [word('stand'), word('by')] }],
    ['alternatives', 'one | two', { kind: 'choice', items: [word('one'), word('two')], weights: [null, null] }],
    ['a rule', '<other>', { kind: 'rule', name: 'other' }],
    ['an option', '[the]', { kind: 'optional', item: word('the') }],
    [
      'repeats',
      'one* two+',
      {
        kind: 'sequence',
        items: [
          { kind: 'any', item: word('one') },
          { kind: 'many', item: word('two') },
        ],
      },
    ],
    [
      'a group',
      '(one | two) three',
      {
        kind: 'sequence',
        items: [{ kind: 'choice', items: [word('one'), word('two')], weights: [null, null] }, word('three')],
      },
    ],
    [
      'weights, and tags, which are read over',
      '/0.5/ one {a \\} b} | /1e-3/ two | three',
      { kind: 'choice', items: [word('one'), word('two'), word('three')], weights: [0.5, 0.001, null] },
    ],
    ['quoted words', '"stand by"', { kind: 'sequence', items: [word('stand'), word('by')] }],
    ['comments', 'one // no\n /* two */', word('one')],
    [
      'words with marks',
      "o'clock x-ray 2.5",
      { kind: 'sequence', items: [word("o'clock"), word('x-ray'), word('2.5')] },
    ],
  ])('%s', (_, body, tree) => {
    expect(only(`public <top> = ${body};`).rules.get('top')).toEqual(tree);
  });

  it('keeps public and private rules apart', () => {
    const grammar = only('public <a> = <b>; <b> = one; public <c> = two;');
    expect(grammar.publicRules).toEqual(['a', 'c']);
    expect([...grammar.rules.keys()]).toEqual(['a', 'b', 'c']);
  });
});

describe('refusing', () => {
  it.each([
    ['no header', 'grammar test; public <a> = one;', 'does not begin'],
    ['no name', '#JSGF V1.0; public <a> = one;', '"grammar" was expected'],
    ['no public rule', `${head} <a> = one;`, 'no public rule'],
    ['a rule twice', `${head} public <a> = one; <a> = two;`, 'defined twice'],
    ['an import', `${head} import <other.rule>; public <a> = one;`, 'from elsewhere'],
    ['an open bracket', `${head} public <a> = (one;`, '")" was expected'],
    ['an empty alternative', `${head} public <a> = one | ;`, 'something is missing'],
    ['an end too early', `${head} public <a> = one`, 'too early'],
    ['a repeat of nothing', `${head} public <a> = * one;`, 'not expected'],
    ['a broken name', `${head} public <a = one;`, 'not understood'],
    ['an open quote', `${head} public <a> = "one;`, 'not understood'],
    ['deep nesting', `${head} public <a> = ${'('.repeat(300)}one${')'.repeat(300)};`, 'nested too deeply'],
  ])('%s', (_, text, why) => {
    const parsed = parseJsgf(text);
    expect(parsed).toMatchObject({ ok: false, reason: 'bad-grammar' });
    expect(parsed.ok ? '' : parsed.detail).toContain(why);
  });
});
