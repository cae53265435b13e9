/**
 * What the weights of a grammar make words cost. A word that is one of several alternatives with weights costs by how
 * much less it weighs than the heaviest of them. Weights of whole rules and phrases are read over: only which word is
 * rare matters here, for short rare words are what noise and the seams between words are taken for.
 */
import type { PhraseNode, Phrases } from './phrases';

/** The engine's customary power for the probability of words (`lw`) against that of sounds. */
const LANGUAGE_WEIGHT = 6.5;
/** A word that is possible at all must stay sayable. */
const COST_MAX = 15;

/** Natural logarithms, by word; where a word stands in several places the cheapest counts. None for what costs nothing. */
export function wordCosts(grammars: readonly Phrases[]): ReadonlyMap<string, number> {
  const costs = new Map<string, number>();
  for (const grammar of grammars) {
    const walker = new Walker(grammar, costs);
    for (const name of grammar.publicRules) walker.rule(name);
  }
  return new Map([...costs].filter(([, cost]) => cost > 0));
}

/** Goes through every rule that can be reached, once. */
class Walker {
  readonly #grammar: Phrases;
  readonly #costs: Map<string, number>;
  readonly #reached = new Set<string>();

  constructor(grammar: Phrases, costs: Map<string, number>) {
    this.#grammar = grammar;
    this.#costs = costs;
  }

  rule(name: string): void {
    const node = this.#grammar.rules.get(name);
    if (node === undefined || this.#reached.has(name)) return;
    this.#reached.add(name);
    this.#walk(node);
  }

  #note(word: string, cost: number): void {
    this.#costs.set(word, Math.min(cost, this.#costs.get(word) ?? Number.POSITIVE_INFINITY));
  }

  #walk(node: PhraseNode): void {
    switch (node.kind) {
      case 'word':
        return this.#note(node.word, 0);
      case 'rule':
        return this.rule(node.name);
      case 'sequence':
        for (const item of node.items) this.#walk(item);
        return;
      case 'choice': {
        const weights = node.weights.map((weight) => weight ?? 1);
        const heaviest = Math.max(...weights);
        for (const [place, item] of node.items.entries()) {
          if (item.kind === 'word') this.#note(item.word, costOf(weights[place] ?? 1, heaviest));
          else this.#walk(item);
        }
        return;
      }
      case 'optional':
      case 'any':
      case 'many':
        return this.#walk(node.item);
    }
  }
}

function costOf(weight: number, heaviest: number): number {
  if (weight >= heaviest) return 0;
  return Math.min(COST_MAX, LANGUAGE_WEIGHT * Math.log(heaviest / weight));
}
