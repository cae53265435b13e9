/**
 * The compact range of the journal's tree: the roots of its perfect subtrees. They are enough to append and to know the
 * root in O(log n), without the leaves.
 */
import { assert } from '../../domain/assert';
import { emptyRoot, isHash, nodeHash, type Hash } from './hash';
import { foldNodes, type NodeKey } from './tree-shape';

export interface CompactRange {
  /** Number of leaves. */
  readonly size: number;
  /** Roots of the perfect subtrees that make up the tree, largest first: one for each set bit of `size`. */
  readonly peaks: readonly Hash[];
}

/** A perfect subtree that a leaf completes. */
export interface TreeNode extends NodeKey {
  readonly hash: Hash;
}

export const EMPTY_RANGE: CompactRange = { size: 0, peaks: [] };

export interface Growth {
  readonly range: CompactRange;
  /** The perfect subtrees that the leaf completes, from the leaf itself upwards; the last is a peak. */
  readonly completed: readonly TreeNode[];
}

/** One more leaf: the compact range after it, and the nodes that are now final. */
export function appendLeaf(range: CompactRange, leaf: Hash): Growth {
  assert(isHash(leaf), 'a leaf is given by its hash');
  assert(isCompactRange(range), 'a compact range has one peak for each set bit of its size');
  const peaks = [...range.peaks];
  let node: TreeNode = { height: 0, index: range.size, hash: leaf };
  const completed = [node];
  // A node in an odd place is the right child of one that is now whole, and the last peak is its left sibling.
  while (node.index % 2 === 1) {
    const left = peaks.pop();
    assert(left !== undefined, 'a right child has its left sibling among the peaks');
    node = { height: node.height + 1, index: (node.index - 1) / 2, hash: nodeHash(left, node.hash) };
    completed.push(node);
  }
  return { range: { size: range.size + 1, peaks: [...peaks, node.hash] }, completed };
}

/** The compact range after one more leaf. */
export function extendRange(range: CompactRange, leaf: Hash): CompactRange {
  return appendLeaf(range, leaf).range;
}

/** RFC 6962 tree hash of the leaves that the range stands for. */
export function rootOfRange(range: CompactRange): Hash {
  assert(isCompactRange(range), 'a compact range has one peak for each set bit of its size');
  return range.size === 0 ? emptyRoot() : foldNodes(range.peaks);
}

/** Whether size and number of peaks fit one another and every peak is a hash. */
export function isCompactRange(range: CompactRange): boolean {
  const { size, peaks } = range;
  return Number.isSafeInteger(size) && size >= 0 && peaks.length === setBits(size) && peaks.every(isHash);
}

function setBits(size: number): number {
  let bits = 0;
  // Division, not shifting: sizes may lie beyond 32 bits.
  for (let rest = size; rest > 0; rest = Math.floor(rest / 2)) bits += rest % 2;
  return bits;
}
