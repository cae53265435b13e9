/**
 * A chart: for each part of a grammar and each word where it may begin, every word where it can end. It decides whether
 * words match at all, in polynomial time and without building a parse.
 */
import type { LinkedGrammar, Node } from '../srgs/link';

/** Bounds on work for one utterance; a grammar that needs more is hostile, and what was said then matches nothing. */
const STEPS_MAX = 400_000;
const DEPTH_MAX = 2_000;

/** Thrown when a bound is met; caught by the matcher. */
export class TooComplex extends Error {}

const NONE: readonly number[] = [];

export class Chart {
  readonly words: readonly string[];
  private readonly nodes: readonly Node[];
  private readonly grammar: LinkedGrammar;
  private readonly known = new Map<number, readonly number[]>();
  /** Entries that are complete. */
  private readonly final = new Set<number>();
  private visited = new Set<number>();
  private readonly open = new Set<number>();
  private unsettled = false;
  private steps = 0;

  constructor(grammar: LinkedGrammar, words: readonly string[]) {
    this.grammar = grammar;
    this.nodes = grammar.nodes;
    this.words = words;
  }

  /**
   * Every position at which `node`, begun at word `from`, can end; ascending.
   * Left recursion reads an entry while it is being computed: passes are then repeated up to the fixed point.
   */
  ends(node: number, from: number): readonly number[] {
    const key = this.key(node, from);
    if (this.final.has(key)) return this.known.get(key) ?? NONE;
    let grew = true;
    while (grew) {
      this.visited = new Set();
      this.unsettled = false;
      grew = this.visit(node, from, 0).grew && this.unsettled;
    }
    for (const visited of this.visited) this.final.add(visited);
    return this.known.get(key) ?? NONE;
  }

  private key(node: number, from: number): number {
    return node * (this.words.length + 1) + from;
  }

  private grewInPass = false;

  private visit(node: number, from: number, depth: number): { grew: boolean } {
    this.grewInPass = false;
    this.reach(node, from, depth);
    return { grew: this.grewInPass };
  }

  private reach(id: number, from: number, depth: number): readonly number[] {
    const key = this.key(id, from);
    const known = this.known.get(key) ?? NONE;
    if (this.final.has(key)) return known;
    if (this.open.has(key)) {
      this.unsettled = true;
      return known;
    }
    if (this.visited.has(key)) return known;
    this.steps += 1;
    if (this.steps > STEPS_MAX || depth > DEPTH_MAX) throw new TooComplex('too much work for one utterance');
    this.open.add(key);
    const made = this.make(this.node(id), from, depth + 1);
    this.open.delete(key);
    this.visited.add(key);
    if (made.length > known.length) this.grewInPass = true;
    this.known.set(key, made);
    return made;
  }

  private node(id: number): Node {
    const node = this.nodes[id];
    if (node === undefined) throw new TooComplex('no such node');
    return node;
  }

  private make(node: Node, from: number, depth: number): readonly number[] {
    switch (node.kind) {
      case 'token':
        return node.words.every((word, at) => this.words[from + at] === word) ? [from + node.words.length] : NONE;
      case 'tag':
        return [from];
      case 'void':
        return NONE;
      case 'garbage':
        return Array.from({ length: this.words.length - from + 1 }, (_, more) => from + more);
      case 'rule':
        return this.reach(this.grammar.rules[node.rule]?.node ?? -1, from, depth);
      case 'choice':
        return union(node.items.map((item) => this.reach(item, from, depth)));
      case 'sequence': {
        let places: readonly number[] = [from];
        for (const item of node.items) {
          if (places.length === 0) return NONE;
          places = this.step(item, places, depth);
        }
        return places;
      }
      case 'repeat':
        return this.repeat(node, from, depth);
    }
  }

  private step(item: number, places: readonly number[], depth: number): readonly number[] {
    return union(places.map((place) => this.reach(item, place, depth)));
  }

  /** Adds one turn at a time until the set of ends no longer changes, which takes no more turns than there are words. */
  private repeat(node: Extract<Node, { kind: 'repeat' }>, from: number, depth: number): readonly number[] {
    const max = node.max ?? Number.POSITIVE_INFINITY;
    let places: readonly number[] = [from];
    let reached: readonly number[] = node.min === 0 ? places : NONE;
    for (let count = 1; count <= max && places.length > 0; count += 1) {
      const next = this.step(node.item, places, depth);
      const still = same(next, places);
      places = next;
      if (count >= node.min || still) {
        const more = union([reached, places]);
        if (still || (same(more, reached) && count > node.min)) return more;
        reached = more;
      }
      this.steps += 1;
      if (this.steps > STEPS_MAX) throw new TooComplex('too much work for one utterance');
    }
    return reached;
  }
}

function same(a: readonly number[], b: readonly number[]): boolean {
  return a.length === b.length && a.every((item, at) => item === b[at]);
}

function union(sets: readonly (readonly number[])[]): readonly number[] {
  if (sets.length === 1) return sets[0] ?? NONE;
  const all = new Set<number>();
  for (const set of sets) for (const item of set) all.add(item);
  return [...all].sort((a, b) => a - b);
}
