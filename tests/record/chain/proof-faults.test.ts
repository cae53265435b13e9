/** What is said of a proof that does not hold, which beliefs a tree is built on, and small trees worked by hand. */
import { describe, expect, it } from 'vitest';
import {
  EMPTY_RANGE,
  extendRange,
  rootOfRange,
  appendLeaf,
  isCompactRange,
} from '../../../src/record/chain/compact-range';
import { nodeHash, type Hash } from '../../../src/record/chain/hash';
import { checkConsistency, checkInclusion } from '../../../src/record/chain/proof';
import { createTree, type Tree } from '../../../src/record/chain/tree';
import { consistencyRanges, foldNodes, inclusionRanges, nodesOfRange } from '../../../src/record/chain/tree-shape';

/** A hash that is told from others at a glance. */
const hash = (n: number): Hash => new Uint8Array(32).fill(n);
const [a, b, c, d, e] = [hash(1), hash(2), hash(3), hash(4), hash(5)];

function grown(...leaves: readonly Hash[]): Tree {
  const tree = createTree();
  for (const leaf of leaves) tree.append(leaf);
  return tree;
}

describe('a proof that does not hold says why', () => {
  const SIZE = 'check that the sizes belong to this proof.';
  const reasonOf = (detail: string): string =>
    ({ [OUTSIDE]: 'bad-size', [OLDER]: 'bad-size', [HASH]: 'bad-hash', [LENGTH]: 'wrong-length' })[detail] ??
    'root-differs';
  const OUTSIDE = `The record lies outside the journal; ${SIZE}`;
  const OLDER = `The older journal is empty or longer than the newer one; ${SIZE}`;
  const HASH = 'A hash in the proof is not 32 bytes long; the proof is damaged, ask for it again.';
  const LENGTH = 'The proof has too few or too many hashes for these sizes; ask for it again.';
  const ROOT = 'The proof leads to another root: the record or the journal was altered.';

  it.each<[string, object, string]>([
    ['a record behind the last', { index: 2 }, OUTSIDE],
    ['a record before the first', { index: -1 }, OUTSIDE],
    ['half a record', { index: 0.5 }, OUTSIDE],
    ['an empty journal', { index: 0, size: 0 }, OUTSIDE],
    ['a size beyond reckoning', { size: 2 ** 53 }, OUTSIDE],
    ['a leaf cut short', { leaf: a.slice(1) }, HASH],
    ['a root cut short', { root: a.slice(1) }, HASH],
    ['a hash cut short', { proof: [b.slice(1)] }, HASH],
    ['no hash', { proof: [] }, LENGTH],
    ['a hash too many', { proof: [b, c] }, LENGTH],
    ['another leaf', { leaf: c }, ROOT],
    ['another place', { index: 1 }, ROOT],
    ['another root', { root: c }, ROOT],
  ])('inclusion: %s', (_, change, detail) => {
    const claim = { index: 0, size: 2, leaf: a, root: nodeHash(a, b), proof: [b] };
    expect(checkInclusion(claim)).toEqual({ ok: true, value: undefined });
    const result = checkInclusion({ ...claim, ...change });
    expect(result).toEqual({ ok: false, reason: reasonOf(detail), detail });
  });

  it.each<[string, object, string]>([
    ['an empty older journal', { firstSize: 0 }, OLDER],
    ['an older journal that is longer', { firstSize: 4 }, OLDER],
    ['half a size', { firstSize: 1.5 }, OLDER],
    ['a newer size that is none', { secondSize: -1 }, OLDER],
    ['a root cut short', { firstRoot: a.slice(1) }, HASH],
    ['the other root cut short', { secondRoot: a.slice(1) }, HASH],
    ['a hash cut short', { proof: [c.slice(1)] }, HASH],
    ['no hash', { proof: [] }, LENGTH],
    ['a hash too many', { proof: [c, d] }, LENGTH],
    ['another older root', { firstRoot: c }, ROOT],
    ['another newer root', { secondRoot: c }, ROOT],
    ['the same size with a proof', { secondSize: 2 }, LENGTH],
    ['the same size with another root', { secondSize: 2, proof: [] }, ROOT],
  ])('consistency: %s', (_, change, detail) => {
    const older = nodeHash(a, b);
    const claim = { firstSize: 2, secondSize: 3, firstRoot: older, secondRoot: nodeHash(older, c), proof: [c] };
    expect(checkConsistency(claim)).toEqual({ ok: true, value: undefined });
    expect(checkConsistency({ ...claim, secondSize: 2, secondRoot: older, proof: [] }).ok).toBe(true);
    const result = checkConsistency({ ...claim, ...change });
    expect(result).toEqual({ ok: false, reason: reasonOf(detail), detail });
  });

  it('an older tree that is not perfect brings its last node along', () => {
    // Three leaves and then five: c is the node that both trees have, d its sibling, ab to its left, e to its right.
    const ab = nodeHash(a, b);
    const firstRoot = nodeHash(ab, c);
    const secondRoot = nodeHash(nodeHash(ab, nodeHash(c, d)), e);
    const claim = { firstSize: 3, secondSize: 5, firstRoot, secondRoot, proof: [c, d, ab, e] };
    expect(grown(a, b, c, d, e).consistency(3, 5)).toEqual(claim.proof);
    expect(checkConsistency(claim).ok).toBe(true);
    for (let left = 0; left < 4; left += 1) {
      const proof = claim.proof.slice(0, left);
      expect(checkConsistency({ ...claim, proof })).toMatchObject({ ok: false, reason: 'wrong-length' });
      expect(checkConsistency({ ...claim, proof: claim.proof.with(left, hash(9)) })).toMatchObject({
        ok: false,
        reason: 'root-differs',
      });
    }
  });
});

describe('small trees, every proof in them', () => {
  const leaves = Array.from({ length: 17 }, (_, n) => hash(n + 1));
  const tree = (): Tree => grown(...leaves);

  it('of a leaf holds in its own place, and in no other', () => {
    const whole = tree();
    for (let size = 1; size <= leaves.length; size += 1) {
      const root = whole.root(size);
      for (let index = 0; index < size; index += 1) {
        const proof = whole.inclusion(index, size);
        const leaf = leaves[index] ?? a;
        for (let place = 0; place < size; place += 1) {
          const result = checkInclusion({ index: place, size, leaf, root, proof });
          expect([size, index, place, result.ok]).toEqual([size, index, place, index === place]);
        }
      }
    }
  });

  it('of an older tree holds for it, and for no other', () => {
    const whole = tree();
    for (let secondSize = 1; secondSize <= leaves.length; secondSize += 1) {
      for (let firstSize = 1; firstSize <= secondSize; firstSize += 1) {
        const [firstRoot, secondRoot] = [whole.root(firstSize), whole.root(secondSize)];
        const proof = whole.consistency(firstSize, secondSize);
        const claim = { firstSize, secondSize, firstRoot, secondRoot, proof };
        expect([secondSize, firstSize, checkConsistency(claim).ok]).toEqual([secondSize, firstSize, true]);
        for (const wrong of [{ firstRoot: hash(99) }, { secondRoot: hash(99) }]) {
          expect([secondSize, firstSize, checkConsistency({ ...claim, ...wrong }).ok]).toEqual([
            secondSize,
            firstSize,
            false,
          ]);
        }
      }
    }
  });

  it('of no leaves has the hash of nothing for its root', () => {
    // SHA-256 of nothing (FIPS 180-4), the empty tree of RFC 6962 section 2.1.
    const nothing = Uint8Array.from(
      Buffer.from('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855', 'hex'),
    );
    expect(createTree().size()).toBe(0);
    expect(createTree().root(0)).toEqual(nothing);
    expect(grown(a).root(0)).toEqual(nothing);
    expect(rootOfRange(EMPTY_RANGE)).toEqual(nothing);
  });
});

describe('beliefs of a tree', () => {
  const LEAF = 'the leaf of a proof lies in its tree';
  const OLDER = 'the older tree is neither empty nor larger';
  const SIZE = 'the tree has reached the size that is asked for';
  const PEAKS = 'a compact range has one peak for each set bit of its size';
  it.each<[string, () => unknown, string]>([
    ['no leaf', () => createTree().append(a.slice(1)), 'a leaf is given by its hash'],
    ['no leaf for a compact range', () => appendLeaf(EMPTY_RANGE, a.slice(1)), 'a leaf is given by its hash'],
    ['a compact range without its peak', () => appendLeaf({ size: 1, peaks: [] }, a), PEAKS],
    ['the root of one', () => rootOfRange({ size: 1, peaks: [] }), PEAKS],
    ['a root to come', () => grown(a).root(2), SIZE],
    ['a root of fewer than none', () => grown(a).root(-1), SIZE],
    ['a root of half', () => grown(a).root(0.5), SIZE],
    ['a proof in a tree to come', () => grown(a).inclusion(0, 2), SIZE],
    ['a later tree to come', () => grown(a).consistency(1, 2), SIZE],
    ['a leaf behind the last', () => inclusionRanges(2, 2), LEAF],
    ['a leaf before the first', () => inclusionRanges(-1, 2), LEAF],
    ['half a leaf', () => inclusionRanges(0.5, 2), LEAF],
    ['a size that is none', () => inclusionRanges(0, 1.5), LEAF],
    ['an empty older tree', () => consistencyRanges(0, 2), OLDER],
    ['a larger older tree', () => consistencyRanges(3, 2), OLDER],
    ['half an older tree', () => consistencyRanges(1.5, 2), OLDER],
    ['a newer tree of half a leaf', () => consistencyRanges(1, 1.5), OLDER],
    ['a range of nothing', () => foldNodes([]), 'a range has at least one leaf'],
  ])('%s', (_, act, belief) => {
    expect(act).toThrow(`Broken assumption: ${belief}`);
  });

  it('what they allow', () => {
    expect(grown(a).root(1)).toEqual(a);
    expect(inclusionRanges(0, 1)).toEqual([]);
    expect(consistencyRanges(2, 2)).toEqual([]);
    expect(consistencyRanges(1, 2)).toEqual([{ from: 1, to: 2 }]);
    expect(isCompactRange({ size: -1, peaks: [] })).toBe(false);
    expect(isCompactRange(EMPTY_RANGE)).toBe(true);
    expect(isCompactRange({ size: 2 ** 40, peaks: [a] })).toBe(true);
    expect(isCompactRange({ size: 2 ** 40 + 1, peaks: [a] })).toBe(false);
    expect(isCompactRange({ size: 2 ** 53, peaks: [a] })).toBe(false);
    expect(isCompactRange({ size: 1, peaks: [a, b] })).toBe(false);
  });
});

describe('the shape of a tree (RFC 6962 section 2.1.3: its example of seven leaves)', () => {
  const range = (from: number, to: number) => ({ from, to });
  it('paths of leaves 0, 3, 4 and 6', () => {
    expect(inclusionRanges(0, 7)).toEqual([range(1, 2), range(2, 4), range(4, 7)]);
    expect(inclusionRanges(3, 7)).toEqual([range(2, 3), range(0, 2), range(4, 7)]);
    expect(inclusionRanges(4, 7)).toEqual([range(5, 6), range(6, 7), range(0, 4)]);
    expect(inclusionRanges(6, 7)).toEqual([range(4, 6), range(0, 4)]);
  });

  it('proofs from 3, 4 and 6 leaves to 7', () => {
    expect(consistencyRanges(3, 7)).toEqual([range(2, 3), range(3, 4), range(0, 2), range(4, 7)]);
    expect(consistencyRanges(4, 7)).toEqual([range(4, 7)]);
    expect(consistencyRanges(6, 7)).toEqual([range(4, 6), range(6, 7), range(0, 4)]);
  });

  it('a range is made of perfect subtrees, the largest first', () => {
    expect(nodesOfRange(range(0, 7))).toEqual([
      { height: 2, index: 0 },
      { height: 1, index: 2 },
      { height: 0, index: 6 },
    ]);
    expect(nodesOfRange(range(4, 8))).toEqual([{ height: 2, index: 1 }]);
    expect(nodesOfRange(range(3, 3))).toEqual([]);
  });

  it('a compact range tells which subtrees a leaf completes', () => {
    let range = EMPTY_RANGE;
    const completed = [a, b, c, d].map((leaf) => {
      const growth = appendLeaf(range, leaf);
      ({ range } = growth);
      return growth.completed.map(({ height, index }) => `${height}:${index}`);
    });
    expect(completed).toEqual([['0:0'], ['0:1', '1:0'], ['0:2'], ['0:3', '1:1', '2:0']]);
    expect(rootOfRange(range)).toEqual(nodeHash(nodeHash(a, b), nodeHash(c, d)));
    expect(rootOfRange(extendRange(range, e))).toEqual(nodeHash(rootOfRange(range), e));
  });

  it('a tree keeps every hash when its room doubles', () => {
    const leaves = Array.from({ length: 130 }, (_, n) => hash(n));
    const tree = grown(...leaves);
    leaves.forEach((leaf, n) => expect(tree.inclusion(n ^ 1, 130)[0]).toEqual(leaf));
    expect(tree.size()).toBe(130);
  });
});
