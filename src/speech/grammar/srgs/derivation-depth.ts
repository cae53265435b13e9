/**
 * The depth of the shallowest derivation tree of each part of a grammar. Whoever generates sentences needs it: it says
 * which parts can be said at all, and which branch of a recursive rule leads out of the recursion.
 */
import type { LinkedGrammar, Node } from './link';

/**
 * For each node the depth of its shallowest derivation; infinite where nothing can be derived ($VOID, or a rule that
 * only ever leads back to itself).
 */
export function minimalDepths(grammar: LinkedGrammar): readonly number[] {
  const depths = grammar.nodes.map(() => Number.POSITIVE_INFINITY);
  const parents = parentsOf(grammar);
  const of = (id: number): number => depths[id] ?? Number.POSITIVE_INFINITY;
  // A worklist to the fixed point: where a node becomes shallower, its parents are computed again.
  const waiting = grammar.nodes.map((_, id) => id);
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    const node = grammar.nodes[id];
    const depth = node === undefined ? Number.POSITIVE_INFINITY : depthOf(node, of, grammar);
    if (depth >= of(id)) continue;
    depths[id] = depth;
    waiting.push(...(parents[id] ?? []));
  }
  return depths;
}

/** For each node those that have it as a part, or refer to the rule whose body it is. */
function parentsOf(grammar: LinkedGrammar): readonly (readonly number[])[] {
  const parents: number[][] = grammar.nodes.map(() => []);
  grammar.nodes.forEach((node, id) => {
    const children = node.kind === 'rule' ? [grammar.rules[node.rule]?.node ?? -1] : partsOf(node);
    for (const child of children) parents[child]?.push(id);
  });
  return parents;
}

/** The nodes that a node is made of, within its own rule. */
export function partsOf(node: Node): readonly number[] {
  switch (node.kind) {
    case 'sequence':
    case 'choice':
      return node.items;
    case 'repeat':
      return [node.item];
    default:
      return [];
  }
}

function depthOf(node: Node, of: (id: number) => number, grammar: LinkedGrammar): number {
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
