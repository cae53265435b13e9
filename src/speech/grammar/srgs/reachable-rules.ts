/** Which rules of a linked grammar can be reached from which. */
import { partsOf } from './derivation-depth';
import type { LinkedGrammar } from './link';

/** Position in `rules` of a rule of the entry grammar; -1 where there is none. */
export function ruleIndex(grammar: LinkedGrammar, name: string): number {
  return grammar.rules.findIndex((rule) => rule.name === name && rule.file === grammar.entry.file);
}

/** Positions in `rules` of everything that the named rules of the entry grammar refer to, themselves included. */
export function reachableRules(grammar: LinkedGrammar, names: readonly string[]): ReadonlySet<number> {
  const reached = new Set<number>();
  const waiting = names.map((name) => ruleIndex(grammar, name)).filter((index) => index >= 0);
  for (let index = waiting.pop(); index !== undefined; index = waiting.pop()) {
    if (reached.has(index)) continue;
    reached.add(index);
    waiting.push(...rulesIn(grammar, grammar.rules[index]?.node ?? -1));
  }
  return reached;
}

/** The rules that a right-hand side refers to. */
function rulesIn(grammar: LinkedGrammar, id: number): readonly number[] {
  const node = grammar.nodes[id];
  if (node === undefined) return [];
  return node.kind === 'rule' ? [node.rule] : partsOf(node).flatMap((part) => rulesIn(grammar, part));
}
