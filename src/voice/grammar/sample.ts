/** Makes sentences from a rule: all of a small one, some of a large one. For tests, for the voice and for confusions. */
import { assert } from '../../domain/assert';
import { heightsOf, ruleIndex } from './heights';
import type { LinkedGrammar, Node } from './link';

type Words = readonly string[];

/** Turns beyond the least that an unbounded repeat is tried with. */
const EXTRA_TURNS = 2;
const DEPTH_MAX = 200;
const WORDS_MAX = 100;

/**
 * The first `limit` different sentences of a rule of the entry grammar. Branches take turns, the first branch first,
 * so that a small limit still shows something of each; optional words are left out first. Unbounded repeats and recursion are tried a few turns deep only.
 */
export function sampleAll(grammar: LinkedGrammar, rule: string, limit: number): readonly string[] {
  const index = ruleIndex(grammar, rule);
  const start = grammar.rules[index];
  if (start === undefined) return [];
  const found = new Set<string>();
  // Each step of the search costs; hostile grammars with many empty branches end here.
  const budget = { left: limit * 1_000 + 10_000 };
  for (const words of new Sampler(grammar, budget).all(start.node, DEPTH_MAX)) {
    found.add(words.join(' '));
    if (found.size >= limit || budget.left <= 0) break;
  }
  return [...found];
}

/** One sentence of a rule, by chance from a `seed`; the same seed makes the same sentence. Null where none can be said. */
export function sampleRandom(grammar: LinkedGrammar, rule: string, seed: number): string | null {
  const index = ruleIndex(grammar, rule);
  const start = grammar.rules[index];
  if (start === undefined) return null;
  const heights = heightsOf(grammar);
  if (!Number.isFinite(heights[start.node] ?? Number.POSITIVE_INFINITY)) return null;
  const words: string[] = [];
  new RandomWalk(grammar, heights, seed).walk(start.node, words, 0);
  return words.join(' ');
}

class Sampler {
  private readonly heights: readonly number[];

  constructor(
    private readonly grammar: LinkedGrammar,
    private readonly budget: { left: number },
  ) {
    this.heights = heightsOf(grammar);
  }

  /** `fuel` bounds recursion: a part that cannot be finished with what is left is not begun. */
  *all(id: number, fuel: number): Generator<Words> {
    const node = this.grammar.nodes[id];
    this.budget.left -= 1;
    if (node === undefined || this.budget.left <= 0 || (this.heights[id] ?? Infinity) > fuel) return;
    switch (node.kind) {
      case 'token':
        yield node.words;
        return;
      case 'tag':
      case 'garbage':
        yield [];
        return;
      case 'void':
        return;
      case 'rule':
        yield* this.all(this.grammar.rules[node.rule]?.node ?? -1, fuel - 1);
        return;
      case 'choice':
        yield* inTurn(node.items.map((item) => this.all(item, fuel - 1)));
        return;
      case 'sequence':
        yield* this.chain(node.items, 0, fuel - 1);
        return;
      case 'repeat': {
        const max = Math.min(node.max ?? Infinity, node.min + EXTRA_TURNS);
        for (let turns = node.min; turns <= max; turns += 1) {
          yield* this.chain(
            Array.from({ length: Math.min(turns, WORDS_MAX) }, () => node.item),
            0,
            fuel - 1,
          );
        }
      }
    }
  }

  private *chain(items: readonly number[], at: number, fuel: number): Generator<Words> {
    const item = items[at];
    if (item === undefined) {
      yield [];
      return;
    }
    for (const first of this.all(item, fuel)) {
      for (const rest of this.chain(items, at + 1, fuel)) {
        if (this.budget.left <= 0) return;
        yield [...first, ...rest];
      }
    }
  }
}

/** One sentence of each branch, round and round until all are spent. */
function* inTurn(branches: readonly Generator<Words>[]): Generator<Words> {
  let open = branches;
  while (open.length > 0) {
    const still: Generator<Words>[] = [];
    for (const branch of open) {
      const next = branch.next();
      if (next.done === true) continue;
      still.push(branch);
      yield next.value;
    }
    open = still;
  }
}

class RandomWalk {
  private state: number;

  constructor(
    private readonly grammar: LinkedGrammar,
    private readonly heights: readonly number[],
    seed: number,
  ) {
    this.state = Math.floor(seed) >>> 0;
  }

  /** A small mixing generator of our own; quality matters little, repeatability much. */
  private chance(): number {
    this.state = (Math.imul(this.state ^ (this.state >>> 15), 0x2c1b3c6d) + 0x9e3779b9) >>> 0;
    let mixed = this.state;
    mixed = Math.imul(mixed ^ (mixed >>> 12), 0x297a2d39) >>> 0;
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32;
  }

  walk(id: number, words: string[], depth: number): void {
    const node = this.grammar.nodes[id];
    assert(node !== undefined, 'nodes refer to nodes');
    switch (node.kind) {
      case 'token':
        words.push(...node.words);
        return;
      case 'rule':
        this.walk(this.grammar.rules[node.rule]?.node ?? -1, words, depth + 1);
        return;
      case 'sequence':
        for (const item of node.items) this.walk(item, words, depth + 1);
        return;
      case 'choice':
        this.walk(this.choose(node, depth), words, depth + 1);
        return;
      case 'repeat': {
        const turns = this.turns(node, words.length, depth);
        for (let turn = 0; turn < turns; turn += 1) this.walk(node.item, words, depth + 1);
        return;
      }
      default:
        return;
    }
  }

  /** Deep down, or with many words, only the branch that ends soonest is taken. */
  private choose(node: Extract<Node, { kind: 'choice' }>, depth: number): number {
    const height = (item: number): number => this.heights[item] ?? Infinity;
    const possible = node.items.filter((item) => Number.isFinite(height(item)));
    const least = Math.min(...possible.map(height));
    const open = depth > 40 ? possible.filter((item) => height(item) === least) : possible;
    return open[Math.floor(this.chance() * open.length)] ?? -1;
  }

  private turns(node: Extract<Node, { kind: 'repeat' }>, said: number, depth: number): number {
    const possible = Number.isFinite(this.heights[node.item] ?? Infinity);
    if (!possible || depth > 40 || said > WORDS_MAX) return node.min;
    const most = Math.min(node.max ?? Infinity, node.min + EXTRA_TURNS);
    return node.min + Math.floor(this.chance() * (most - node.min + 1));
  }
}
