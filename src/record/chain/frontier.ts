/** The right edge of the journal's tree: enough to append and to know the root in O(log n), without the leaves. */
import { assert } from '../../domain/assert';
import { emptyRoot, isHash, nodeHash, type Hash } from './hash';

export interface Frontier {
  /** Number of leaves. */
  readonly size: number;
  /** Roots of the perfect subtrees that make up the tree, largest first: one for each set bit of `size`. */
  readonly peaks: readonly Hash[];
}

export const EMPTY_FRONTIER: Frontier = { size: 0, peaks: [] };

/** The frontier after one more leaf. */
export function extendFrontier(frontier: Frontier, leaf: Hash): Frontier {
  assert(isHash(leaf), 'a leaf is given by its hash');
  assert(isFrontier(frontier), 'a frontier has one peak for each set bit of its size');
  const peaks = [...frontier.peaks];
  let node = leaf;
  // Every trailing one bit of the size is a perfect subtree that the new leaf completes to the next larger one.
  for (let rest = frontier.size; rest % 2 === 1; rest = Math.floor(rest / 2)) {
    const left = peaks.pop();
    assert(left !== undefined, 'a set bit of the size has its peak');
    node = nodeHash(left, node);
  }
  peaks.push(node);
  return { size: frontier.size + 1, peaks };
}

/** RFC 6962 tree hash of the leaves behind the frontier. */
export function frontierRoot(frontier: Frontier): Hash {
  assert(isFrontier(frontier), 'a frontier has one peak for each set bit of its size');
  return (
    frontier.peaks.reduceRight<Hash | null>((right, left) => (right ? nodeHash(left, right) : left), null) ??
    emptyRoot()
  );
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
