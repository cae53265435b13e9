/** Which nodes of an RFC 6962 tree a root or proof is made of; the hashes themselves are somebody else's. */
import { assert } from '../../domain/assert';
import { nodeHash, type Hash } from './hash';

/** A perfect subtree: of 2^height leaves, the index-th of its kind from the left. Height 0 is a leaf. */
export interface NodeKey {
  readonly height: number;
  readonly index: number;
}

/** The leaves `[from, to)`. Every run below starts at a multiple of the smallest power of two that holds it. */
export interface Run {
  readonly from: number;
  readonly to: number;
}

/** The runs whose hashes are the inclusion proof of leaf `index` among the first `size` (RFC 6962 section 2.1.1). */
export function inclusionRuns(index: number, size: number): readonly Run[] {
  assert(isCount(size) && isCount(index) && index < size, 'the leaf of a proof lies in its tree');
  const runs: Run[] = [];
  let run: Run = { from: 0, to: size };
  while (run.to - run.from > 1) {
    const [left, right] = halves(run);
    const within = index < left.to;
    runs.unshift(within ? right : left);
    run = within ? left : right;
  }
  return runs;
}

/** The runs whose hashes show that the first `second` leaves begin with the first `first` (section 2.1.2). */
export function consistencyRuns(first: number, second: number): readonly Run[] {
  assert(
    isCount(second) && isCount(first) && first >= 1 && first <= second,
    'the older tree is neither empty nor larger',
  );
  const runs: Run[] = [];
  let run: Run = { from: 0, to: second };
  while (run.to !== first) {
    const [left, right] = halves(run);
    const within = first <= left.to;
    runs.unshift(within ? right : left);
    run = within ? left : right;
  }
  // A run that is the whole older tree is known to whoever has its root.
  return run.from === 0 ? runs : [run, ...runs];
}

/** The perfect subtrees that make up a run, from the left. */
export function nodesOfRun({ from, to }: Run): readonly NodeKey[] {
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

/** The hash of a run from the hashes of its perfect subtrees, in the order of `nodesOfRun`. */
export function foldNodes(hashes: readonly Hash[]): Hash {
  const [last, ...before] = [...hashes].reverse();
  assert(last !== undefined, 'a run has at least one leaf');
  return before.reduce((right, left) => nodeHash(left, right), last);
}

/** Split at the largest power of two below the length (which is 2 or more). */
function halves({ from, to }: Run): readonly [Run, Run] {
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
