/** Which nodes of an RFC 6962 tree a root or proof is made of, as leaf ranges. Hashes are looked up by the caller. */
import { assert } from '../../domain/assert';
import { nodeHash, type Hash } from './hash';

/** A perfect subtree: of 2^height leaves, the index-th of its kind from the left. Height 0 is a leaf. */
export interface NodeKey {
  readonly height: number;
  readonly index: number;
}

/** The leaves `[from, to)`. Every range below starts at a multiple of the smallest power of two that holds it. */
export interface LeafRange {
  readonly from: number;
  readonly to: number;
}

/** The ranges whose hashes are the inclusion proof of leaf `index` among the first `size` (RFC 6962 section 2.1.1). */
export function inclusionRanges(index: number, size: number): readonly LeafRange[] {
  assert(isCount(size) && isCount(index) && index < size, 'the leaf of a proof lies in its tree');
  const ranges: LeafRange[] = [];
  let range: LeafRange = { from: 0, to: size };
  while (range.to - range.from > 1) {
    const [left, right] = halves(range);
    const within = index < left.to;
    ranges.unshift(within ? right : left);
    range = within ? left : right;
  }
  return ranges;
}

/** The ranges whose hashes show that the first `second` leaves begin with the first `first` (section 2.1.2). */
export function consistencyRanges(first: number, second: number): readonly LeafRange[] {
  assert(
    isCount(second) && isCount(first) && first >= 1 && first <= second,
    'the older tree is neither empty nor larger',
  );
  const ranges: LeafRange[] = [];
  let range: LeafRange = { from: 0, to: second };
  while (range.to !== first) {
    const [left, right] = halves(range);
    const within = first <= left.to;
    ranges.unshift(within ? right : left);
    range = within ? left : right;
  }
  // A range that is the whole older tree is known to whoever has its root.
  return range.from === 0 ? ranges : [range, ...ranges];
}

/** The perfect subtrees that make up a range, from the left. */
export function nodesOfRange({ from, to }: LeafRange): readonly NodeKey[] {
  const nodes: NodeKey[] = [];
  let at = from;
  while (at < to) {
    let height = 0;
    while (2 ** (height + 1) <= to - at) height += 1;
    nodes.push({ height, index: at / 2 ** height });
    at += 2 ** height;
  }
  return nodes;
}

/** The hash of a range from the hashes of its perfect subtrees, in the order of `nodesOfRange`. */
export function foldNodes(hashes: readonly Hash[]): Hash {
  const [last, ...before] = [...hashes].reverse();
  assert(last !== undefined, 'a range has at least one leaf');
  return before.reduce((right, left) => nodeHash(left, right), last);
}

/** Split at the largest power of two below the length (which is 2 or more). */
function halves({ from, to }: LeafRange): readonly [LeafRange, LeafRange] {
  let split = 1;
  while (split * 2 < to - from) split *= 2;
  return [
    { from, to: from + split },
    { from: from + split, to },
  ];
}

function isCount(value: number): boolean {
  return Number.isSafeInteger(value) && value >= 0;
}
