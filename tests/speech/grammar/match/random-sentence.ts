/** Sentences of a rule by chance, for properties of grammars. */
import { assert } from '../../../../src/speech/grammar/assert';
import { minimalDepths } from '../../../../src/speech/grammar/srgs/derivation-depth';
import type { LinkedGrammar, Node } from '../../../../src/speech/grammar/srgs/link';
import { ruleIndex } from '../../../../src/speech/grammar/srgs/reachable-rules';

const WORDS_MAX = 100;
/** Turns beyond the least that an unbounded repeat is tried with. */
const EXTRA_TURNS = 2;

/** One sentence of a rule, by chance from a `seed`; the same seed makes the same sentence. Null where none can be said. */
export function randomSentence(grammar: LinkedGrammar, rule: string, seed: number): string | null {
  const index = ruleIndex(grammar, rule);
  const start = grammar.rules[index];
  if (start === undefined) return null;
  const depths = minimalDepths(grammar);
  if (!Number.isFinite(depths[start.node] ?? Number.POSITIVE_INFINITY)) return null;
  const words: string[] = [];
  new RandomWalk(grammar, depths, seed).walk(start.node, words, 0);
  return words.join(' ');
}

class RandomWalk {
  private state: number;

  constructor(
    private readonly grammar: LinkedGrammar,
    private readonly depths: readonly number[],
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
    const depthOf = (item: number): number => this.depths[item] ?? Infinity;
    const possible = node.items.filter((item) => Number.isFinite(depthOf(item)));
    const least = Math.min(...possible.map(depthOf));
    const open = depth > 40 ? possible.filter((item) => depthOf(item) === least) : possible;
    return open[Math.floor(this.chance() * open.length)] ?? -1;
  }

  private turns(node: Extract<Node, { kind: 'repeat' }>, said: number, depth: number): number {
    const possible = Number.isFinite(this.depths[node.item] ?? Infinity);
    if (!possible || depth > 40 || said > WORDS_MAX) return node.min;
    const most = Math.min(node.max ?? Infinity, node.min + EXTRA_TURNS);
    return node.min + Math.floor(this.chance() * (most - node.min + 1));
  }
}
