/**
 * From grammar trees to the smallest automaton that says the same. The engine itself copies a rule wherever it is
 * referred to; measured, lengths cost it ten times the time that they cost as the smallest automaton.
 */
import type { Result } from '@stowcall/grammar';
import { ok, refused } from '@stowcall/grammar';
import type { PhraseNode, Phrases } from './phrases';
import { wordCosts } from './weights';

/** State 0 is the start. Each state has at most one way out for a word. */
export interface Automaton {
  readonly ways: readonly ReadonlyMap<string, number>[];
  readonly accepting: readonly boolean[];
  /** What a rare word costs, as a natural logarithm; the others cost nothing. */
  readonly costs: ReadonlyMap<string, number>;
}

/** States and ways alone. */
type Paths = Omit<Automaton, 'costs'>;

/** Whether these words, no more and no fewer, can be said with the automaton. */
export function accepts({ ways, accepting }: Automaton, words: readonly string[]): boolean {
  let state: number | undefined = 0;
  for (const word of words) state = state === undefined ? undefined : ways[state]?.get(word);
  return state !== undefined && accepting[state] === true;
}

/** Where so many other words may be said, one of many is said: a figure, or one of the commands of a single word. */
const SLOT_WORDS = 5;

/**
 * Whether these words have a slot: some place in them at which many others may be said, at the beginning such as go on
 * in the same way. Noise makes one of many into another more easily than it makes a fixed phrase.
 */
export function hasSlot(automaton: Automaton, words: readonly string[]): boolean {
  let state: number | undefined = 0;
  for (const [place, word] of words.entries()) {
    const ways: readonly string[] = [...(state === undefined ? [] : (automaton.ways[state]?.keys() ?? []))];
    const rest = words.slice(1);
    const fitting = place > 0 ? ways : ways.filter((other) => accepts(automaton, [other, ...rest]));
    // The word itself is among them.
    if (fitting.length > SLOT_WORDS) return true;
    state = state === undefined ? undefined : automaton.ways[state]?.get(word);
  }
  return false;
}

class AutomatonFault extends Error {}

const STATES_MAX = 20_000;

/** What the public rules of all grammars say. Nothing at all, or only silence, is refused. */
export function automatonOf(grammars: readonly Phrases[]): Result<Automaton, 'bad-grammar'> {
  try {
    const net = new Net();
    const start = net.state();
    const end = net.state();
    for (const grammar of grammars) {
      const writer = new Writer(grammar);
      for (const name of grammar.publicRules) net.inline(writer.rule(name), start, end);
    }
    const automaton = { ...smallest(net, start, end), costs: wordCosts(grammars) };
    if (automaton.accepting[0] === true) throw new AutomatonFault('saying nothing would be a phrase of it');
    if (!automaton.accepting.includes(true)) throw new AutomatonFault('nothing can be said with it');
    return ok(automaton);
  } catch (fault) {
    if (!(fault instanceof AutomatonFault)) throw fault;
    return refused('bad-grammar', `This grammar cannot be used: ${fault.message}.`);
  }
}

/** A net with several ways for a word, and steps without one. */
class Net {
  readonly ways: Map<string, number[]>[] = [];
  readonly steps: number[][] = [];

  state(): number {
    if (this.ways.length >= STATES_MAX) throw new AutomatonFault('it is too large');
    this.ways.push(new Map());
    this.steps.push([]);
    return this.ways.length - 1;
  }

  way(from: number, word: string, to: number): void {
    const targets = this.ways[from]?.get(word);
    if (targets === undefined) this.ways[from]?.set(word, [to]);
    else targets.push(to);
  }

  step(from: number, to: number): void {
    this.steps[from]?.push(to);
  }

  inline(automaton: Paths, from: number, to: number): void {
    const place = automaton.ways.map(() => this.state());
    this.step(from, place[0] ?? to);
    for (const [state, ways] of automaton.ways.entries()) {
      for (const [word, target] of ways) this.way(place[state] ?? 0, word, place[target] ?? 0);
      if (automaton.accepting[state] === true) this.step(place[state] ?? 0, to);
    }
  }
}

/** Compiled rules of a set of rules that is used again and again: the vocabularies of a kiosk share most of theirs. */
const DONE = new WeakMap<Phrases['rules'], Map<string, Paths>>();

/** The states that a part of the network leads from and to. */
interface Between {
  readonly from: number;
  readonly to: number;
}

/** Writes rules as automata, each once. */
class Writer {
  readonly #grammar: Phrases;
  readonly #done: Map<string, Paths>;
  readonly #open = new Set<string>();

  constructor(grammar: Phrases) {
    this.#grammar = grammar;
    this.#done = DONE.get(grammar.rules) ?? new Map<string, Paths>();
    DONE.set(grammar.rules, this.#done);
  }

  rule(name: string): Paths {
    const known = this.#done.get(name);
    if (known !== undefined) return known;
    const node = this.#grammar.rules.get(name);
    if (node === undefined) throw new AutomatonFault(`there is no rule <${name}>`);
    if (this.#open.has(name)) throw new AutomatonFault(`<${name}> refers to itself`);
    this.#open.add(name);
    const net = new Net();
    const start = net.state();
    const end = net.state();
    this.#write(net, node, { from: start, to: end });
    this.#open.delete(name);
    const automaton = smallest(net, start, end);
    this.#done.set(name, automaton);
    return automaton;
  }

  #write(net: Net, node: PhraseNode, between: Between): void {
    const { from, to } = between;
    switch (node.kind) {
      case 'word':
        return net.way(from, node.word, to);
      case 'rule':
        if (node.name === 'NULL') return net.step(from, to);
        if (node.name === 'VOID') return;
        return net.inline(this.rule(node.name), from, to);
      case 'choice':
        for (const item of node.items) this.#write(net, item, between);
        return;
      case 'sequence': {
        let at = from;
        for (const [index, item] of node.items.entries()) {
          const next = index === node.items.length - 1 ? to : net.state();
          this.#write(net, item, { from: at, to: next });
          at = next;
        }
        return;
      }
      case 'optional':
        net.step(from, to);
        return this.#write(net, node.item, between);
      case 'any':
      case 'many': {
        const [first, last] = [net.state(), net.state()];
        net.step(from, first);
        net.step(last, to);
        net.step(last, first);
        if (node.kind === 'any') net.step(first, last);
        return this.#write(net, node.item, { from: first, to: last });
      }
    }
  }
}

/** One way for a word in each state, no dead ends, no two states that mean the same. */
function smallest(net: Net, start: number, end: number): Paths {
  return merged(withoutDeadEnds(determined(net, start, end)));
}

function determined(net: Net, start: number, end: number): Paths {
  const first = closure(net, [start]);
  const index = new Map<string, number>([[first.join(' '), 0]]);
  const sets = [first];
  const ways: Map<string, number>[] = [];
  const accepting: boolean[] = [];
  for (let at = 0; at < sets.length; at += 1) {
    const set = sets[at] ?? [];
    const targets = new Map<string, number[]>();
    for (const state of set) {
      for (const [word, to] of net.ways[state] ?? []) targets.set(word, [...(targets.get(word) ?? []), ...to]);
    }
    const out = new Map<string, number>();
    for (const [word, to] of targets) {
      const target = closure(net, to);
      const key = target.join(' ');
      let place = index.get(key);
      if (place === undefined) {
        place = sets.length;
        if (place >= STATES_MAX) throw new AutomatonFault('it is too large');
        index.set(key, place);
        sets.push(target);
      }
      out.set(word, place);
    }
    ways.push(out);
    accepting.push(set.includes(end));
  }
  return { ways, accepting };
}

/** The states that are reached from these without a word, in order. */
function closure(net: Net, states: readonly number[]): readonly number[] {
  const reached = new Set(states);
  for (const state of reached) for (const next of net.steps[state] ?? []) reached.add(next);
  return [...reached].sort((a, b) => a - b);
}

function withoutDeadEnds({ ways, accepting }: Paths): Paths {
  const alive = new Set(accepting.flatMap((accepts, state) => (accepts ? [state] : [])));
  for (let size = -1; size !== alive.size;) {
    size = alive.size;
    for (const [state, out] of ways.entries()) {
      if ([...out.values()].some((target) => alive.has(target))) alive.add(state);
    }
  }
  return { ways: ways.map((out) => new Map([...out].filter(([, target]) => alive.has(target)))), accepting };
}

/** Splits states until all of a class go the same ways (Moore), then keeps one of each that is reached. */
function merged({ ways, accepting }: Paths): Paths {
  let classes = accepting.map(Number);
  for (let count = 0; ;) {
    const names = new Map<string, number>();
    classes = ways.map((out, state) => {
      const next = [...out].map(([word, target]) => `${word}>${classes[target] ?? 0}`).sort();
      const key = `${classes[state] ?? 0}|${next.join(' ')}`;
      const name = names.get(key) ?? names.size;
      names.set(key, name);
      return name;
    });
    if (names.size === count) break;
    count = names.size;
  }
  const place = new Map<number, number>([[classes[0] ?? 0, 0]]);
  const kept = [0];
  const merged: Map<string, number>[] = [];
  for (let at = 0; at < kept.length; at += 1) {
    const out = new Map<string, number>();
    for (const [word, target] of ways[kept[at] ?? 0] ?? []) {
      const name = classes[target] ?? 0;
      let to = place.get(name);
      if (to === undefined) {
        to = kept.length;
        place.set(name, to);
        kept.push(target);
      }
      out.set(word, to);
    }
    merged.push(out);
  }
  return { ways: merged, accepting: kept.map((state) => accepting[state] === true) };
}
