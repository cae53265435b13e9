/** Which parts of a grammar can be said at all, and with how few steps: what keeps the makers of sentences from going on for ever. */
import type { LinkedGrammar, Node } from './link';

/**
 * For each node the least depth of a sentence of it; infinite where nothing can be said ($VOID, or a rule that
 * only ever leads back to itself).
 */
export function heightsOf(grammar: LinkedGrammar): readonly number[] {
  const heights = grammar.nodes.map(() => Number.POSITIVE_INFINITY);
  const parents = parentsOf(grammar);
  const of = (id: number): number => heights[id] ?? Number.POSITIVE_INFINITY;
  // From the leaves up: whatever becomes lower is told to what rests on it.
  const waiting = grammar.nodes.map((_, id) => id);
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    const node = grammar.nodes[id];
    const height = node === undefined ? Number.POSITIVE_INFINITY : heightOf(node, of, grammar);
    if (height >= of(id)) continue;
    heights[id] = height;
    waiting.push(...(parents[id] ?? []));
  }
  return heights;
}

/** For each node those that have it as a part, or refer to the rule whose body it is. */
function parentsOf(grammar: LinkedGrammar): readonly (readonly number[])[] {
  const parents: number[][] = grammar.nodes.map(() => []);
  grammar.nodes.forEach((node, id) => {
    for (const child of childrenOf(node, grammar)) parents[child]?.push(id);
  });
  return parents;
}

/** The nodes that a node is made of; for a reference the body of the rule. */
export function childrenOf(node: Node, grammar: LinkedGrammar): readonly number[] {
  switch (node.kind) {
    case 'rule':
      return [grammar.rules[node.rule]?.node ?? -1];
    case 'sequence':
    case 'choice':
      return node.items;
    case 'repeat':
      return [node.item];
    default:
      return [];
  }
}

function heightOf(node: Node, of: (id: number) => number, grammar: LinkedGrammar): number {
  switch (node.kind) {
    case 'token':
    case 'tag':
    case 'garbage':
      return 1;
    case 'void':
      return Number.POSITIVE_INFINITY;
    case 'rule':
      return 1 + of(grammar.rules[node.rule]?.node ?? -1);
    case 'sequence':
      return 1 + Math.max(0, ...node.items.map(of));
    case 'choice':
      return 1 + Math.min(...node.items.map(of));
    case 'repeat':
      return node.min === 0 ? 1 : 1 + of(node.item);
  }
}

/** Position of a rule of the entry grammar; -1 where there is none. */
export function ruleIndex(grammar: LinkedGrammar, name: string): number {
  return grammar.rules.findIndex((rule) => rule.name === name && rule.file === grammar.entry.file);
}
