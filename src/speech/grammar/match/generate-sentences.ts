/** Generates sentences of a rule: all of a small language, a part of a large one. */
import { minimalDepths } from '../srgs/derivation-depth';
import type { LinkedGrammar } from '../srgs/link';
import { ruleIndex } from '../srgs/reachable-rules';

type Words = readonly string[];

/** How many turns beyond its minimum an unbounded repeat is given. */
const EXTRA_TURNS = 2;
const DEPTH_MAX = 200;
const WORDS_MAX = 100;

/**
 * The first `limit` different sentences of a rule of the entry grammar. Branches take turns, the first branch first,
 * so that a small limit still shows something of each; optional words are left out first. Unbounded repeats and
 * recursion go a few turns deep only.
 */
export function generateSentences(grammar: LinkedGrammar, rule: string, limit: number): readonly string[] {
  const index = ruleIndex(grammar, rule);
  const start = grammar.rules[index];
  if (start === undefined) return [];
  const found = new Set<string>();
  // Counts steps of the search, so that a hostile grammar of many empty branches ends too.
  const budget = { left: limit * 1_000 + 10_000 };
  for (const words of new Sampler(grammar, budget).all(start.node, DEPTH_MAX)) {
    found.add(words.join(' '));
    if (found.size >= limit || budget.left <= 0) break;
  }
  return [...found];
}

class Sampler {
  private readonly depths: readonly number[];

  constructor(
    private readonly grammar: LinkedGrammar,
    private readonly budget: { left: number },
  ) {
    this.depths = minimalDepths(grammar);
  }

  /** `fuel` bounds recursion: a part that cannot be finished with what is left is not begun. */
  *all(id: number, fuel: number): Generator<Words> {
    const node = this.grammar.nodes[id];
    this.budget.left -= 1;
    if (node === undefined || this.budget.left <= 0 || (this.depths[id] ?? Infinity) > fuel) return;
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
