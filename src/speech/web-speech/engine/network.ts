/**
 * What the engine searches: the phrases, and beside them a filler model, a loop of all phones, that is the better path for whatever is
 * none of them. Any speech that is found in the filler makes the utterance no command.
 */
import { PHONES } from '@stowcall/grammar';
import type { Automaton } from './automaton';

const PHONE_PREFIX = 'phone_';

/** The dictionary word that stands for one phone. */
export function phoneWord(phone: string): string {
  return `${PHONE_PREFIX}${phone.toLowerCase()}`;
}

export function isPhoneWord(word: string): boolean {
  return word.startsWith(PHONE_PREFIX);
}

/** A way from state to state; null is a step without a word. `cost` is a natural logarithm of a weight, 0 or more. */
export interface Arc {
  readonly from: number;
  readonly to: number;
  readonly word: string | null;
  readonly cost: number;
}

export interface Network {
  readonly states: number;
  readonly start: number;
  readonly end: number;
  readonly arcs: readonly Arc[];
}

export interface FillerCosts {
  /** For entering the filler model at the beginning. */
  readonly start: number;
  /** For entering it after a phrase: "next" in "next week we are closed". */
  readonly after: number;
  /** For each further phone in it. */
  readonly phone: number;
}

/** For each word: else a sound between two words becomes a third. Measured: 0 wrong and 1 asked fewer than with none. */
export const WORD_COST = 3;

/** A phrase that must win although it is made dearer by this much. */
export interface Handicap {
  readonly words: readonly string[];
  readonly cost: number;
}

/** Other phrases that stand apart from those of the grammar, so that each of them is dearer by this much. */
export interface Rivals {
  readonly automaton: Automaton;
  readonly cost: number;
}

/** What makes a search harder for a phrase that was found. */
export interface Trial {
  readonly handicap?: Handicap | null;
  readonly rivals?: Rivals | null;
}

/** The phrases of the automaton, with the filler model beside and after them. */
export function networkOf(automaton: Automaton, costs: FillerCosts | null, trial: Trial = {}): Network {
  const { handicap = null, rivals = null } = trial;
  const arcs: Arc[] = [];
  let states = automaton.ways.length;
  const state = (): number => (states += 1) - 1;
  const end = state();
  const after = state();
  const filler = state();
  const accept = (from: number, cost: number): void => {
    // The engine takes one step without a word and no second, so both steps are written.
    arcs.push({ from, to: end, word: null, cost });
    if (costs !== null) arcs.push({ from, to: after, word: null, cost });
  };
  addPhrases(automaton, (at) => at, { arcs, state, accept });
  const start = handicap === null ? 0 : handicapped(automaton, handicap, { arcs, state, accept });
  if (rivals !== null) addRivals(rivals, start, { arcs, state, accept });
  if (costs !== null) {
    for (const word of PHONES.map(phoneWord)) {
      arcs.push({ from: start, to: filler, word, cost: costs.start });
      arcs.push({ from: after, to: filler, word, cost: costs.after });
      arcs.push({ from: filler, to: filler, word, cost: costs.phone });
    }
    arcs.push({ from: filler, to: end, word: null, cost: 0 });
  }
  return { states, start, end, arcs };
}

interface Writing {
  readonly arcs: Arc[];
  readonly state: () => number;
  readonly accept: (from: number, cost: number) => void;
}

function costOf({ costs }: Automaton, word: string): number {
  return WORD_COST + (costs.get(word) ?? 0);
}

/** All phrases of an automaton, each state of it at its place. */
function addPhrases(automaton: Automaton, place: (at: number) => number, { arcs, accept }: Writing): void {
  for (const [from, ways] of automaton.ways.entries()) {
    for (const [word, to] of ways) arcs.push({ from: place(from), to: place(to), word, cost: costOf(automaton, word) });
    if (automaton.accepting[from] === true) accept(place(from), 0);
  }
}

/** They begin where the phrases do. */
function addRivals({ automaton, cost }: Rivals, start: number, writing: Writing): void {
  const places = automaton.ways.map(() => writing.state());
  const place = (at: number): number => places[at] ?? start;
  for (const [word, to] of automaton.ways[0] ?? []) {
    writing.arcs.push({ from: start, to: place(to), word, cost: cost + costOf(automaton, word) });
  }
  addPhrases(automaton, place, writing);
}

/** A track of copies along the phrase: it leads into the phrases at the first other word, and at its end it costs. */
function handicapped(automaton: Automaton, { words, cost }: Handicap, { arcs, state, accept }: Writing): number {
  const start = state();
  let copy = start;
  let place = 0;
  for (let at = 0; ; at += 1) {
    const next = words[at];
    const onward = next === undefined ? undefined : automaton.ways[place]?.get(next);
    for (const [word, to] of automaton.ways[place] ?? []) {
      if (word !== next) arcs.push({ from: copy, to, word, cost: costOf(automaton, word) });
    }
    const isEnd = at === words.length;
    if (automaton.accepting[place] === true) accept(copy, isEnd ? cost : 0);
    if (next === undefined || onward === undefined) return start;
    const following = state();
    arcs.push({ from: copy, to: following, word: next, cost: costOf(automaton, next) });
    copy = following;
    place = onward;
  }
}
