/** A growing RFC 6962 tree that keeps every perfect subtree, so that any root or proof costs O(log n) hashes. */
import { assert } from '../../domain/assert';
import { emptyRoot, HASH_BYTES, isHash, nodeHash, type Hash } from './hash';

export interface Tree {
  size(): number;
  append(leaf: Hash): void;
  /** Root of the first `size` leaves. */
  root(size: number): Hash;
  /** RFC 6962 section 2.1.1: the path that leads from leaf `index` to the root of the first `size` leaves. */
  inclusion(index: number, size: number): readonly Hash[];
  /** RFC 6962 section 2.1.2: what shows that the first `second` leaves begin with the first `first`; `first` >= 1. */
  consistency(first: number, second: number): readonly Hash[];
}

/** A run of leaves `[from, to)`. Every run that is asked for starts at a multiple of its largest power of two. */
interface Run {
  readonly from: number;
  readonly to: number;
}

/** Makes an empty tree. Memory: 64 bytes for each leaf. */
export function createTree(): Tree {
  const levels: Level[] = [];
  const size = (): number => levels[0]?.count() ?? 0;
  const runHash = (run: Run): Hash => hashOfRun(levels, run);

  return {
    size,
    append(leaf) {
      assert(isHash(leaf), 'a leaf is given by its hash');
      addNode(levels, leaf);
    },
    root(upTo) {
      assert(isCount(upTo, size()), 'a root is asked for a size that the tree has reached');
      return upTo === 0 ? emptyRoot() : runHash({ from: 0, to: upTo });
    },
    inclusion(index, upTo) {
      assert(isCount(upTo, size()), 'a proof is asked for a size that the tree has reached');
      assert(isCount(index, upTo) && index < upTo, 'the leaf of a proof lies in its tree');
      return path(index, { from: 0, to: upTo }, runHash);
    },
    consistency(first, second) {
      assert(isCount(second, size()), 'a proof is asked for a size that the tree has reached');
      assert(isCount(first, second) && first >= 1, 'the older tree of a proof is not empty and not larger');
      return first === second ? [] : subproof({ from: 0, to: second }, { first, whole: true }, runHash);
    },
  };
}

/** Hashes of one height, in one growing buffer: two million separate arrays would cost several times as much. */
interface Level {
  count(): number;
  push(hash: Hash): void;
  at(index: number): Hash;
}

function createLevel(): Level {
  let bytes = new Uint8Array(64 * HASH_BYTES);
  let count = 0;
  return {
    count: () => count,
    push(hash) {
      if ((count + 1) * HASH_BYTES > bytes.length) {
        const larger = new Uint8Array(bytes.length * 2);
        larger.set(bytes);
        bytes = larger;
      }
      bytes.set(hash, count * HASH_BYTES);
      count += 1;
    },
    at(index) {
      assert(index < count, 'a perfect subtree is looked up after it was completed');
      return bytes.slice(index * HASH_BYTES, (index + 1) * HASH_BYTES);
    },
  };
}

function addNode(levels: Level[], leaf: Hash): void {
  let node = leaf;
  for (let height = 0; ; height += 1) {
    const level = (levels[height] ??= createLevel());
    level.push(node);
    if (level.count() % 2 === 1) return;
    node = nodeHash(level.at(level.count() - 2), node);
  }
}

function hashOfRun(levels: readonly Level[], run: Run): Hash {
  const length = run.to - run.from;
  const height = Math.log2(length);
  if (Number.isInteger(height)) {
    const level = levels[height];
    assert(level !== undefined, 'a perfect subtree is looked up after it was completed');
    return level.at(run.from / length);
  }
  const middle = run.from + splitOf(length);
  return nodeHash(hashOfRun(levels, { from: run.from, to: middle }), hashOfRun(levels, { from: middle, to: run.to }));
}

/** PATH(m, D[n]) of RFC 6962 section 2.1.1; `index` counts from the start of the whole tree. */
function path(index: number, run: Run, runHash: (run: Run) => Hash): Hash[] {
  const length = run.to - run.from;
  if (length === 1) return [];
  const middle = run.from + splitOf(length);
  const left = { from: run.from, to: middle };
  const right = { from: middle, to: run.to };
  return index < middle
    ? [...path(index, left, runHash), runHash(right)]
    : [...path(index, right, runHash), runHash(left)];
}

/** SUBPROOF(m, D[n], b) of RFC 6962 section 2.1.2; `whole` is b: the old tree is all of this run so far. */
function subproof(run: Run, old: { first: number; whole: boolean }, runHash: (run: Run) => Hash): Hash[] {
  const length = run.to - run.from;
  if (old.first === length) return old.whole ? [] : [runHash(run)];
  const split = splitOf(length);
  const left = { from: run.from, to: run.from + split };
  const right = { from: run.from + split, to: run.to };
  if (old.first <= split) return [...subproof(left, old, runHash), runHash(right)];
  return [...subproof(right, { first: old.first - split, whole: false }, runHash), runHash(left)];
}

/** The largest power of two below `length` (which is 2 or more). */
function splitOf(length: number): number {
  let split = 1;
  while (split * 2 < length) split *= 2;
  return split;
}

function isCount(value: number, atMost: number): boolean {
  return Number.isSafeInteger(value) && value >= 0 && value <= atMost;
}
