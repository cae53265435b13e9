/** A growing RFC 6962 tree in memory that keeps every perfect subtree, so that any root or proof costs O(log n). */
import { assert } from '../../domain/assert';
import { emptyRoot, HASH_BYTES, isHash, nodeHash, type Hash } from './hash';
import {
  consistencyRanges,
  foldNodes,
  inclusionRanges,
  nodesOfRange,
  type NodeKey,
  type LeafRange,
} from './tree-shape';

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

/** Makes an empty tree. Memory: 64 bytes for each leaf. */
export function createTree(): Tree {
  const levels: Level[] = [];
  const size = (): number => levels[0]?.count() ?? 0;
  const hashOf = ({ height, index }: NodeKey): Hash => {
    const level = levels[height];
    assert(level !== undefined, 'a perfect subtree is looked up after it was completed');
    return level.at(index);
  };
  const runHash = (range: LeafRange): Hash => foldNodes(nodesOfRange(range).map(hashOf));
  const assertReached = (upTo: number): void =>
    assert(
      Number.isSafeInteger(upTo) && upTo >= 0 && upTo <= size(),
      'the tree has reached the size that is asked for',
    );

  return {
    size,
    append(leaf) {
      assert(isHash(leaf), 'a leaf is given by its hash');
      addNode(levels, leaf);
    },
    root(upTo) {
      assertReached(upTo);
      return upTo === 0 ? emptyRoot() : runHash({ from: 0, to: upTo });
    },
    inclusion(index, upTo) {
      assertReached(upTo);
      return inclusionRanges(index, upTo).map(runHash);
    },
    consistency(first, second) {
      assertReached(second);
      return consistencyRanges(first, second).map(runHash);
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
