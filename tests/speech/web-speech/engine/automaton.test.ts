/** The smallest automaton says exactly what its grammar says, however the grammar is written. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Automaton } from '../../../../src/speech/web-speech/engine/automaton';
import { automatonOf, hasSlot } from '../../../../src/speech/web-speech/engine/automaton';
import type { JsgfNode } from '../../../../src/speech/grammar/jsgf/parse-jsgf';
import { parseJsgf } from '../../../../src/speech/grammar/jsgf/parse-jsgf';
import type { Network } from '../../../../src/speech/web-speech/engine/network';
import { isPhoneWord, networkOf, WORD_COST } from '../../../../src/speech/web-speech/engine/network';

const LENGTH_MAX = 4;

function automaton(body: string): Automaton {
  const grammar = parseJsgf(`#JSGF V1.0; grammar test; ${body}`);
  if (!grammar.ok) throw new Error(grammar.detail);
  const made = automatonOf([grammar.value]);
  if (!made.ok) throw new Error(made.detail);
  return made.value;
}

/** Every phrase up to `LENGTH_MAX` words, found by walking. */
function phrasesOf({ ways, accepting }: Automaton): string[] {
  const walk = (state: number, said: readonly string[]): string[] => [
    ...(accepting[state] === true ? [said.join(' ')] : []),
    ...(said.length === LENGTH_MAX ? [] : [...(ways[state] ?? [])].flatMap(([word, to]) => walk(to, [...said, word]))),
  ];
  return walk(0, []).sort();
}

/** The same from the tree itself, by the definition of each node. */
function phrasesOfNode(node: JsgfNode): Set<string> {
  const join = (a: Set<string>, b: Set<string>) =>
    new Set(
      [...a].flatMap((x) => [...b].map((y) => `${x} ${y}`.trim())).filter((x) => x.split(' ').length <= LENGTH_MAX),
    );
  switch (node.kind) {
    case 'word':
      return new Set([node.word]);
    case 'rule':
      return node.name === 'NULL' ? new Set(['']) : new Set();
    case 'choice':
      return new Set(node.items.flatMap((item) => [...phrasesOfNode(item)]));
    case 'sequence':
      return node.items.map(phrasesOfNode).reduce(join, new Set(['']));
    case 'optional':
      return new Set(['', ...phrasesOfNode(node.item)]);
    case 'any':
    case 'many': {
      const once = phrasesOfNode(node.item);
      let all = node.kind === 'any' ? new Set(['', ...once]) : once;
      for (let more = 0; more < LENGTH_MAX; more += 1) all = new Set([...all, ...join(all, once)]);
      return all;
    }
  }
}

const node = fc.letrec<{ node: JsgfNode; leaf: JsgfNode }>((tie) => ({
  leaf: fc.oneof(
    fc.constantFrom('a', 'b', 'c').map((word): JsgfNode => ({ kind: 'word', word })),
    fc.constantFrom('NULL', 'VOID').map((name): JsgfNode => ({ kind: 'rule', name })),
  ),
  node: fc.oneof(
    { maxDepth: 4, depthIdentifier: 'tree' },
    tie('leaf'),
    fc.array(tie('node'), { minLength: 1, maxLength: 3 }).map((items): JsgfNode => ({ kind: 'sequence', items })),
    fc.array(tie('node'), { minLength: 1, maxLength: 3 }).map((items): JsgfNode => ({
      kind: 'choice',
      items,
      weights: items.map(() => null),
    })),
    fc.tuple(fc.constantFrom('optional', 'any', 'many'), tie('node')).map(([kind, item]): JsgfNode => ({ kind, item })),
  ),
})).node;

describe('the automaton of a grammar', () => {
  it('says what the tree says', () => {
    fc.assert(
      fc.property(node, (tree) => {
        const made = automatonOf([{ rules: new Map([['top', tree]]), publicRules: ['top'] }]);
        const expected = phrasesOfNode(tree);
        if (expected.has('')) expect(made.ok).toBe(false);
        else expect(made.ok ? phrasesOf(made.value) : []).toEqual([...expected].sort());
      }),
      { numRuns: 500 },
    );
  });

  it('is the smallest: shared beginnings and ends are there once', () => {
    const long = automaton('public <a> = red one stop | red two stop | blue one stop | (blue | red) two stop;');
    expect(long.ways).toHaveLength(4);
    expect(phrasesOf(long)).toEqual(['blue one stop', 'blue two stop', 'red one stop', 'red two stop']);
  });

  it('joins all public rules of all grammars', () => {
    const grammars = ['public <a> = one; public <b> = <c>; <c> = two;', 'public <a> = three;'].map((body) => {
      const parsed = parseJsgf(`#JSGF V1.0; grammar test; ${body}`);
      if (!parsed.ok) throw new Error(parsed.detail);
      return parsed.value;
    });
    const made = automatonOf(grammars);
    expect(made.ok && phrasesOf(made.value)).toEqual(['one', 'three', 'two']);
  });

  it.each([
    ['a rule that is not there', 'public <a> = <b>;', 'no rule <b>'],
    ['a rule that refers to itself', 'public <a> = one [<b>]; <b> = two <a>;', 'refers to itself'],
    ['a grammar that says nothing', 'public <a> = <VOID>;', 'nothing can be said'],
    ['a grammar that hears a command in silence', 'public <a> = [one];', 'saying nothing'],
  ])('refuses %s', (_, body, why) => {
    const grammar = parseJsgf(`#JSGF V1.0; grammar test; ${body}`);
    if (!grammar.ok) throw new Error(grammar.detail);
    const made = automatonOf([grammar.value]);
    expect(made).toMatchObject({ ok: false, reason: 'bad-grammar' });
    expect(made.ok ? '' : made.detail).toContain(why);
  });
});

/** Cheapest cost of every phrase of a network, the filler left out. */
function costsOf(network: Network): Map<string, number> {
  const costs = new Map<string, number>();
  const walk = (state: number, said: readonly string[], cost: number): void => {
    if (state === network.end) {
      const key = said.join(' ');
      costs.set(key, Math.min(cost, costs.get(key) ?? Number.POSITIVE_INFINITY));
    }
    for (const arc of network.arcs) {
      if (arc.from !== state || (arc.word !== null && (isPhoneWord(arc.word) || said.length === LENGTH_MAX))) continue;
      walk(arc.to, arc.word === null ? said : [...said, arc.word], cost + arc.cost);
    }
  };
  walk(network.start, [], 0);
  return costs;
}

const COSTS = { start: 60, after: 100, phone: 1 };

describe('the network of an automaton', () => {
  const some = automaton('public <a> = one | one two | one two three | two (one | two);');

  const plain = (said: string): number => WORD_COST * said.split(' ').length;

  it('says the same phrases, each at the cost of its words', () => {
    const costs = costsOf(networkOf(some, COSTS));
    expect([...costs.keys()].sort()).toEqual(phrasesOf(some));
    for (const [said, cost] of costs) expect([said, cost]).toEqual([said, plain(said)]);
  });

  it.each(['one', 'one two', 'one two three', 'two one'])('makes "%s" dearer and no other phrase', (phrase) => {
    const costs = costsOf(networkOf(some, COSTS, { handicap: { words: phrase.split(' '), cost: 7 } }));
    expect([...costs.keys()].sort()).toEqual(phrasesOf(some));
    for (const [said, cost] of costs) expect([said, cost]).toEqual([said, plain(said) + (said === phrase ? 7 : 0)]);
  });

  it('a handicap on what is no phrase changes nothing', () => {
    const costs = costsOf(networkOf(some, null, { handicap: { words: ['one', 'three'], cost: 7 } }));
    expect(costs).toEqual(costsOf(networkOf(some, null)));
  });

  it('lets rivals stand apart, each dearer than the phrases, and no phrase dearer for them', () => {
    const rivals = { automaton: automaton('public <b> = four+ | two one;'), cost: 9 };
    const costs = costsOf(networkOf(some, COSTS, { rivals }));
    for (const said of phrasesOf(some)) expect([said, costs.get(said)]).toEqual([said, plain(said)]);
    for (const said of ['four', 'four four']) expect([said, costs.get(said)]).toEqual([said, plain(said) + 9]);
  });

  it('a phrase that is a rival too, and dearer than that, costs what the rival costs', () => {
    const rivals = { automaton: automaton('public <b> = two one;'), cost: 9 };
    const handicap = { words: ['two', 'one'], cost: 20 };
    expect(costsOf(networkOf(some, COSTS, { handicap, rivals })).get('two one')).toBe(plain('two one') + 9);
  });

  it('makes rare words dearer wherever they stand', () => {
    const rare = automaton('public <a> = (/10/ two | /1/ too) (/10/ two | /1/ too) | three;');
    const [low, high] = [plain('two two'), rare.costs.get('too') ?? 0];
    expect(high).toBeCloseTo(14.97, 2);
    for (const trial of [{}, { handicap: { words: ['two', 'too'], cost: 4 } }]) {
      const more = 'handicap' in trial ? 4 : 0;
      const costs = costsOf(networkOf(rare, COSTS, trial));
      const expected = [low, low + high + more, low + high, low + 2 * high, WORD_COST];
      expect(['two two', 'two too', 'too two', 'too too', 'three'].map((said) => costs.get(said))).toEqual(expected);
    }
  });

  it('never lets the filler be entered for less than it costs', () => {
    const network = networkOf(some, { start: 5, after: 6, phone: 1 }, { handicap: { words: ['one'], cost: 2 } });
    const into = network.arcs.filter(({ word }) => word !== null && isPhoneWord(word));
    expect(new Set(into.map(({ from, to, cost }) => `${from === to ? 'within' : 'into'} ${cost}`))).toEqual(
      new Set(['into 5', 'into 6', 'within 1']),
    );
  });
});

describe('a phrase has a slot', () => {
  const kiosk = automaton(
    'public <a> = stage complete | item (placed | removed) | <n> tools | measured <n> inches | <n> | affirm | finding <n>;' +
      '<n> = one | two | three | four | five | six | seven;',
  );
  it.each([
    ['stage complete', false],
    ['item placed', false],
    ['item removed', false],
    ['five tools', true],
    ['measured two inches', true],
    ['finding six', true],
    ['three', true],
    // One of many of a single word.
    ['affirm', true],
  ])('"%s": %s', (words, expected) => {
    expect(hasSlot(kiosk, words.split(' '))).toBe(expected);
  });

  it('not with few others, nor where it cannot be said', () => {
    const few = automaton('public <a> = yes | no | stop | start | help;');
    expect(hasSlot(few, ['yes'])).toBe(false);
    expect(hasSlot(kiosk, ['complete', 'stage'])).toBe(false);
  });
});
