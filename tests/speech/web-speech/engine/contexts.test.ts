/** Splitting places by the sound before them says the same phrases, one pronunciation at a time. */
import { describe, expect, it } from 'vitest';
import { splitContexts } from '../../../../src/speech/web-speech/engine/contexts';
import type { Arc, Network } from '../../../../src/speech/web-speech/engine/network';

const DICTIONARY: Readonly<Record<string, readonly string[]>> = {
  three: ['TH R IY'],
  tree: ['T R IY'],
  four: ['F AO R'],
  eight: ['EY T'],
  nine: ['N AY N'],
  inches: ['IH N CH AH Z', 'IH N CH IH Z'],
  phone_ah: ['AH'],
};
const pronounce = (word: string) =>
  (DICTIONARY[word] ?? []).map((phones, index) => ({
    name: index === 0 ? word : `${word}(${index + 1})`,
    phones: phones.split(' '),
  }));

const arc = ([from, to]: readonly [number, number], word: string | null, cost = 0): Arc => ({ from, to, word, cost });
const some: Network = {
  states: 4,
  start: 0,
  end: 3,
  arcs: [
    ...['three', 'tree', 'four', 'nine', 'eight'].map((word) => arc([0, 1], word)),
    ...['eight', 'nine'].map((word) => arc([1, 2], word, 5)),
    arc([2, 3], 'inches'),
    arc([1, 3], null, 2),
  ],
};

function phrasesOf(network: Network): string[] {
  const found: string[] = [];
  const walk = (state: number, said: readonly string[], cost: number): void => {
    if (state === network.end) found.push(`${said.join(' ')} ${cost}`);
    for (const { from, to, word, cost: more } of network.arcs) {
      if (from === state) walk(to, word === null ? said : [...said, word], cost + more);
    }
  };
  walk(network.start, [], 0);
  return found.sort();
}

describe('splitting', () => {
  const split = splitContexts(some, pronounce);

  it('keeps every phrase and its cost, with each pronunciation by its name', () => {
    const expected = phrasesOf(some).flatMap((phrase) =>
      phrase.includes('inches') ? [phrase, phrase.replace('inches', 'inches(2)')] : [phrase],
    );
    expect(phrasesOf(split)).toEqual(expected.sort());
  });

  it('leaves no place, from which a word of several sounds goes on, with two different sounds before it', () => {
    const lasts = new Map<number, Set<string>>();
    for (const { to, word } of split.arcs) {
      const last = word === null ? [] : [pronounce(word.replace(/\(\d\)$/, ''))[0]?.phones.at(-1) ?? ''];
      lasts.set(to, new Set([...(lasts.get(to) ?? []), ...last]));
    }
    const left = split.arcs.flatMap(({ from, word }) => (word === null ? [] : [from]));
    for (const place of left) expect([...(lasts.get(place) ?? [])].length).toBeLessThanOrEqual(1);
  });

  it('places that only single sounds leave are not split: the engine models those rightly', () => {
    const loop: Network = {
      states: 2,
      start: 0,
      end: 1,
      arcs: [arc([0, 1], 'three'), arc([0, 1], 'nine'), arc([1, 1], 'phone_ah')],
    };
    expect(splitContexts(loop, pronounce).states).toBe(2);
  });

  it('an end that nothing leads to is still there', () => {
    const lost: Network = { states: 3, start: 0, end: 2, arcs: [arc([0, 1], 'nine')] };
    expect(splitContexts(lost, pronounce).end).toBeLessThan(splitContexts(lost, pronounce).states);
  });
});
