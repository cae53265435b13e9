/** The right edge of the journal's tree: enough to append and to know the root in O(log n), without the leaves. */
import { assert } from '../../domain/assert';
import { emptyRoot, isHash, nodeHash, type Hash } from './hash';
import { foldNodes, type NodeKey } from './tree-shape';

export interface Frontier {
  /** Number of leaves. */
  readonly size: number;
  /** Roots of the perfect subtrees that make up the tree, largest first: one for each set bit of `size`. */
  readonly peaks: readonly Hash[];
}

/** A perfect subtree that a leaf completes. */
export interface TreeNode extends NodeKey {
  readonly hash: Hash;
}

export const EMPTY_FRONTIER: Frontier = { size: 0, peaks: [] };

export interface Growth {
  readonly frontier: Frontier;
  /** The perfect subtrees that the leaf completes, from the leaf itself upwards; the last is a peak. */
  readonly completed: readonly TreeNode[];
}

/** One more leaf: the frontier after it, and the nodes that are now final. */
export function growFrontier(frontier: Frontier, leaf: Hash): Growth {
  assert(isHash(leaf), 'a leaf is given by its hash');
  assert(isFrontier(frontier), 'a frontier has one peak for each set bit of its size');
  const peaks = [...frontier.peaks];
  let node: TreeNode = { height: 0, index: frontier.size, hash: leaf };
  const completed = [node];
  // A node in an odd place is the right child of one that is now whole, and the last peak is its left sibling.
  while (node.index % 2 === 1) {
    const left = peaks.pop();
    assert(left !== undefined, 'a right child has its left sibling among the peaks');
    node = { height: node.height + 1, index: (node.index - 1) / 2, hash: nodeHash(left, node.hash) };
    completed.push(node);
  }
  return { frontier: { size: frontier.size + 1, peaks: [...peaks, node.hash] }, completed };
}

/** The frontier after one more leaf. */
export function extendFrontier(frontier: Frontier, leaf: Hash): Frontier {
  return growFrontier(frontier, leaf).frontier;
}

/** RFC 6962 tree hash of the leaves behind the frontier. */
export function frontierRoot(frontier: Frontier): Hash {
  assert(isFrontier(frontier), 'a frontier has one peak for each set bit of its size');
  return frontier.size === 0 ? emptyRoot() : foldNodes(frontier.peaks);
}

/** Whether size and number of peaks fit one another and every peak is a hash. */
export function isFrontier(frontier: Frontier): boolean {
  const { size, peaks } = frontier;
  return Number.isSafeInteger(size) && size >= 0 && peaks.length === setBits(size) && peaks.every(isHash);
}

function setBits(size: number): number {
  let bits = 0;
  // Division, not shifting: sizes may lie beyond 32 bits.
  for (let rest = size; rest > 0; rest = Math.floor(rest / 2)) bits += rest % 2;
  return bits;
}
