/**
 * Works around a defect of the engine (0.6.3): of all the sounds that may come before a word at one place of the
 * network it takes the first in its alphabet for every one of them, and so models the word's own first sound wrongly.
 * Here each place is split until the words that lead to it all end in one sound. Measured: "finding three eight"
 * became likelier by e^57, for "fower" had lent its last sound to "three".
 */
import type { Arc, Network } from './network';

/** One way to pronounce a word: its name in the dictionary, and its phones. */
export interface Pronounced {
  readonly name: string;
  readonly phones: readonly string[];
}

/** The engine takes silence as a possible neighbour everywhere, and these come after it in its alphabet. */
const AFTER_SILENCE = new Set(['T', 'TH', 'UH', 'UW', 'V', 'W', 'Y', 'Z', 'ZH']);
const START = '';

/** The same network with a place for each last sound, and an arc for each pronunciation. */
export function splitContexts(network: Network, pronounce: (word: string) => readonly Pronounced[]): Network {
  const outgoing = new Map<number, Arc[]>();
  for (const arc of network.arcs) outgoing.set(arc.from, [...(outgoing.get(arc.from) ?? []), arc]);
  // Single sounds are modelled rightly, so a place that only they leave needs no splitting.
  const isSplit = new Set(
    [...outgoing].flatMap(([state, arcs]) =>
      arcs.some(({ word }) => word !== null && pronounce(word).some(({ phones }) => phones.length > 1)) ? [state] : [],
    ),
  );
  const places = new Map<string, number>();
  const waiting: { readonly state: number; readonly place: number }[] = [];
  const placeOf = (state: number, last: string): number => {
    const key = isSplit.has(state) ? `${state} ${last}` : `${state}`;
    const known = places.get(key);
    if (known !== undefined) return known;
    const place = places.size;
    places.set(key, place);
    waiting.push({ state, place });
    return place;
  };
  const start = placeOf(network.start, START);
  const arcs: Arc[] = [];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    for (const { to, word, cost } of outgoing.get(next.state) ?? []) {
      if (word === null) arcs.push({ from: next.place, to: placeOf(to, START), word, cost });
      else {
        for (const { name, phones } of pronounce(word)) {
          arcs.push({ from: next.place, to: placeOf(to, contextOf(phones)), word: name, cost });
        }
      }
    }
  }
  const end = placeOf(network.end, START);
  return { states: places.size, start, end, arcs };
}

function contextOf(phones: readonly string[]): string {
  const last = phones.at(-1) ?? START;
  return AFTER_SILENCE.has(last) ? 'SIL' : last;
}
