import { describe, expect, it } from 'vitest';
import { EMPTY_RANGE, extendRange, rootOfRange, isCompactRange } from '../../../src/record/chain/compact-range';
import { emptyRoot, leafHash, makeHashHex, nodeHash, type Hash } from '../../../src/record/chain/hash';
import { checkConsistency, checkInclusion } from '../../../src/record/chain/proof';
import { createTree } from '../../../src/record/chain/tree';

const fromHex = (hex: string): Uint8Array => Uint8Array.from(Buffer.from(hex, 'hex'));

// Leaves and roots that Certificate Transparency implementations share as known answers (RFC 6962).
const LEAVES = ['', '00', '10', '2021', '3031', '40414243', '5051525354555657', '606162636465666768696a6b6c6d6e6f'].map(
  fromHex,
);
const ROOTS = [
  'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
  '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d',
  'fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125',
  'aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77',
  'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7',
  '4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4',
  '76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef',
  'ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c',
  '5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328',
];

/** MTH of RFC 6962 section 2.1, word for word and slow, as a second opinion. */
function rootByTheBook(leaves: readonly Hash[]): Hash {
  const [only] = leaves;
  if (only === undefined) return emptyRoot();
  if (leaves.length === 1) return only;
  let k = 1;
  while (k * 2 < leaves.length) k *= 2;
  return nodeHash(rootByTheBook(leaves.slice(0, k)), rootByTheBook(leaves.slice(k)));
}

const SIZES = 100;
const MANY = Array.from({ length: SIZES }, (_, i) => leafHash(new Uint8Array([i, i >> 1])));

function grown(leaves: readonly Hash[]) {
  const tree = createTree();
  leaves.forEach((leaf) => tree.append(leaf));
  return tree;
}

const flipped = (hash: Hash, bit: number): Hash =>
  Uint8Array.from(hash, (byte, i) => (i === bit >> 3 ? byte ^ (1 << (bit & 7)) : byte));

describe('roots', () => {
  it.each(ROOTS.map((root, size) => [size, root] as const))('of the first %i known leaves', (size, root) => {
    const leaves = LEAVES.slice(0, size).map(leafHash);
    expect(makeHashHex(rootOfRange(leaves.reduce(extendRange, EMPTY_RANGE)))).toBe(root);
    expect(makeHashHex(grown(LEAVES.map(leafHash)).root(size))).toBe(root);
  });

  it(`range, tree and the RFC's own recursion agree at every size up to ${SIZES}`, () => {
    const tree = createTree();
    let range = EMPTY_RANGE;
    MANY.forEach((leaf, i) => {
      tree.append(leaf);
      range = extendRange(range, leaf);
      const root = rootByTheBook(MANY.slice(0, i + 1));
      expect(rootOfRange(range)).toEqual(root);
      expect(tree.root(i + 1)).toEqual(root);
      expect(tree.size()).toBe(i + 1);
    });
  });

  it('a compact range whose peaks do not fit its size is a broken assumption', () => {
    const [peak] = MANY;
    const wrong = { size: 3, peaks: [peak!] };
    expect(isCompactRange(wrong)).toBe(false);
    expect(() => rootOfRange(wrong)).toThrow('Broken assumption');
    expect(() => extendRange(wrong, peak!)).toThrow('Broken assumption');
    expect(isCompactRange({ size: -1, peaks: [] })).toBe(false);
    expect(isCompactRange({ size: 0.5, peaks: [] })).toBe(false);
    expect(isCompactRange({ size: 1, peaks: [peak!.slice(1)] })).toBe(false);
  });

  it('a leaf that is no hash is a broken assumption', () => {
    expect(() => createTree().append(new Uint8Array(31))).toThrow('Broken assumption');
    expect(() => extendRange(EMPTY_RANGE, new Uint8Array(33))).toThrow('Broken assumption');
  });
});

describe('inclusion proofs', () => {
  it('of leaf 5 in 8 known leaves starts as published', () => {
    const proof = grown(LEAVES.map(leafHash)).inclusion(5, 8).map(makeHashHex);
    expect(proof.map((hash) => hash.slice(0, 8))).toEqual(['bc1a0643', 'ca854ea1', 'd37ee418']);
  });

  it(`every leaf at every size up to ${SIZES}; a flip in any hash of the proof, the leaf or the root is seen`, () => {
    const tree = createTree();
    let proofs = 0;
    MANY.forEach((last, grownBy) => {
      tree.append(last);
      const size = grownBy + 1;
      const root = tree.root(size);
      MANY.slice(0, size).forEach((leaf, index) => {
        const claim = { index, size, leaf, root, proof: tree.inclusion(index, size) };
        if (!checkInclusion(claim).ok) throw new Error(`sound proof of ${index} in ${size} refused`);
        claim.proof.forEach((hash, at) => {
          const proof = claim.proof.with(at, flipped(hash, (index * 7 + at * 31) % 256));
          if (checkInclusion({ ...claim, proof }).ok) throw new Error(`flip at ${at} in ${index} of ${size} accepted`);
        });
        const bit = (index + size) % 256;
        if (checkInclusion({ ...claim, leaf: flipped(leaf, bit) }).ok) throw new Error('wrong leaf accepted');
        if (checkInclusion({ ...claim, root: flipped(root, bit) }).ok) throw new Error('wrong root accepted');
        proofs += 1;
      });
    });
    expect(proofs).toBe((SIZES * (SIZES + 1)) / 2);
  });

  it('a proof moved to any other place in the same tree is refused', () => {
    const tree = grown(MANY.slice(0, 33));
    const root = tree.root(33);
    for (let index = 0; index < 33; index += 1) {
      for (let other = 0; other < 33; other += 1) {
        const claim = { index: other, size: 33, leaf: MANY[index]!, root, proof: tree.inclusion(index, 33) };
        expect(checkInclusion(claim).ok).toBe(index === other);
      }
    }
  });

  it('a proof with one hash too many or too few is refused with its reason', () => {
    const tree = grown(MANY.slice(0, 9));
    const claim = { index: 8, size: 9, leaf: MANY[8]!, root: tree.root(9), proof: tree.inclusion(8, 9) };
    expect(checkInclusion({ ...claim, proof: [] })).toMatchObject({ ok: false, reason: 'wrong-length' });
    const longer = [...claim.proof, MANY[0]!];
    expect(checkInclusion({ ...claim, proof: longer })).toMatchObject({ ok: false, reason: 'wrong-length' });
  });

  it.each([
    [0, 0],
    [1, 1],
    [-1, 1],
    [0.5, 1],
    [0, -1],
    [0, Number.NaN],
    [0, 2 ** 53],
    [Number.POSITIVE_INFINITY, 8],
  ])('leaf %d of %d is out of bounds', (index, size) => {
    const claim = { index, size, leaf: MANY[0]!, root: MANY[0]!, proof: [] };
    expect(checkInclusion(claim)).toMatchObject({ ok: false, reason: 'bad-size' });
  });

  it('a hash of another length is refused before anything is hashed', () => {
    const short = MANY[0]!.slice(0, 31);
    const claim = { index: 0, size: 2, leaf: MANY[0]!, root: MANY[1]!, proof: [MANY[2]!] };
    expect(checkInclusion({ ...claim, leaf: short })).toMatchObject({ reason: 'bad-hash' });
    expect(checkInclusion({ ...claim, root: short })).toMatchObject({ reason: 'bad-hash' });
    expect(checkInclusion({ ...claim, proof: [short] })).toMatchObject({ reason: 'bad-hash' });
  });

  it('a proof beyond 32 bits of size is walked, not cut off', () => {
    const size = 2 ** 40;
    const index = 2 ** 40 - 1;
    const proof = Array.from({ length: 40 }, (_, i) => MANY[i]!);
    const root = proof.reduce((node, sibling) => nodeHash(sibling, node), MANY[50]!);
    expect(checkInclusion({ index, size, leaf: MANY[50]!, root, proof }).ok).toBe(true);
    expect(checkInclusion({ index: index - 1, size, leaf: MANY[50]!, root, proof }).ok).toBe(false);
  });

  it('asking for a proof outside the tree is a broken assumption', () => {
    const tree = grown(MANY.slice(0, 3));
    expect(() => tree.inclusion(3, 3)).toThrow('Broken assumption');
    expect(() => tree.inclusion(0, 4)).toThrow('Broken assumption');
    expect(() => tree.root(4)).toThrow('Broken assumption');
    expect(() => tree.consistency(0, 3)).toThrow('Broken assumption');
    expect(() => tree.consistency(3, 2)).toThrow('Broken assumption');
  });
});

describe('consistency proofs', () => {
  it('from 6 to 8 known leaves starts as published', () => {
    const proof = grown(LEAVES.map(leafHash)).consistency(6, 8).map(makeHashHex);
    expect(proof.map((hash) => hash.slice(0, 8))).toEqual(['0ebc5d34', 'ca854ea1', 'd37ee418']);
  });

  it(`every pair of sizes up to ${SIZES}; a flip in any hash of the proof or in a root is seen`, () => {
    const tree = grown(MANY);
    for (let secondSize = 1; secondSize <= SIZES; secondSize += 1) {
      for (let firstSize = 1; firstSize <= secondSize; firstSize += 1) {
        const [firstRoot, secondRoot] = [tree.root(firstSize), tree.root(secondSize)];
        const claim = { firstSize, secondSize, firstRoot, secondRoot, proof: tree.consistency(firstSize, secondSize) };
        if (!checkConsistency(claim).ok) throw new Error(`sound proof ${firstSize} to ${secondSize} refused`);
        claim.proof.forEach((hash, at) => {
          const proof = claim.proof.with(at, flipped(hash, (firstSize * 7 + at * 31) % 256));
          if (checkConsistency({ ...claim, proof }).ok) throw new Error(`flip at ${at} of ${firstSize}-${secondSize}`);
        });
        const bit = (firstSize + secondSize) % 256;
        if (checkConsistency({ ...claim, firstRoot: flipped(firstRoot, bit) }).ok) throw new Error('wrong old root');
        if (checkConsistency({ ...claim, secondRoot: flipped(secondRoot, bit) }).ok) throw new Error('wrong new root');
      }
    }
  });

  it('one record altered in the past breaks the proof', () => {
    const altered = grown(MANY.map((leaf, i) => (i === 3 ? flipped(leaf, 0) : leaf)));
    const honest = grown(MANY);
    const claim = {
      firstSize: 60,
      secondSize: 100,
      firstRoot: honest.root(60),
      secondRoot: altered.root(100),
      proof: altered.consistency(60, 100),
    };
    expect(checkConsistency(claim)).toMatchObject({ ok: false, reason: 'root-differs' });
  });

  it('a proof with one hash too many or too few, or none, is refused with its reason', () => {
    const tree = grown(MANY);
    const claim = {
      firstSize: 6,
      secondSize: 8,
      firstRoot: tree.root(6),
      secondRoot: tree.root(8),
      proof: tree.consistency(6, 8),
    };
    for (const proof of [[], claim.proof.slice(0, -1), [...claim.proof, MANY[0]!]]) {
      expect(checkConsistency({ ...claim, proof })).toMatchObject({ ok: false, reason: 'wrong-length' });
    }
    const same = { ...claim, secondSize: 6, secondRoot: claim.firstRoot, proof: [MANY[0]!] };
    expect(checkConsistency(same)).toMatchObject({ ok: false, reason: 'wrong-length' });
    expect(checkConsistency({ ...claim, proof: [MANY[0]!.slice(1)] })).toMatchObject({ reason: 'bad-hash' });
  });

  it.each([
    [0, 0],
    [0, 5],
    [5, 4],
    [-1, 4],
    [1.5, 4],
    [1, Number.NaN],
  ])('from %d to %d is refused', (firstSize, secondSize) => {
    const claim = { firstSize, secondSize, firstRoot: emptyRoot(), secondRoot: emptyRoot(), proof: [] };
    expect(checkConsistency(claim)).toMatchObject({ ok: false, reason: 'bad-size' });
  });
});
