/**
 * What the weights of a grammar make words cost. A word that is one of several alternatives with weights costs by how
 * much less it weighs than the heaviest of them. Weights of whole rules and phrases are read over: only which word is
 * rare matters here, for short rare words are what noise and the seams between words are taken for.
 */
import type { JsgfGrammar, JsgfNode } from '@stowcall/grammar';

/** The engine's customary power for the probability of words (`lw`) against that of sounds. */
const LANGUAGE_WEIGHT = 6.5;
/** A word that is possible at all must stay sayable. */
const COST_MAX = 15;

/** Natural logarithms, by word; where a word stands in several places the cheapest counts. None for what costs nothing. */
export function wordCosts(grammars: readonly JsgfGrammar[]): ReadonlyMap<string, number> {
  const costs = new Map<string, number>();
  const note = (word: string, cost: number): void => {
    costs.set(word, Math.min(cost, costs.get(word) ?? Number.POSITIVE_INFINITY));
  };
  for (const { rules } of grammars) for (const node of rules.values()) walk(node, note);
  return new Map([...costs].filter(([, cost]) => cost > 0));
}

function walk(node: JsgfNode, note: (word: string, cost: number) => void): void {
  switch (node.kind) {
    case 'word':
      return note(node.word, 0);
    case 'rule':
      return;
    case 'sequence':
      for (const item of node.items) walk(item, note);
      return;
    case 'choice': {
      const weights = node.weights.map((weight) => weight ?? 1);
      const heaviest = Math.max(...weights);
      for (const [place, item] of node.items.entries()) {
        if (item.kind === 'word') note(item.word, costOf(weights[place] ?? 1, heaviest));
        else walk(item, note);
      }
      return;
    }
    case 'optional':
    case 'any':
    case 'many':
      return walk(node.item, note);
  }
}

function costOf(weight: number, heaviest: number): number {
  if (weight >= heaviest) return 0;
  return Math.min(COST_MAX, LANGUAGE_WEIGHT * Math.log(heaviest / weight));
}
