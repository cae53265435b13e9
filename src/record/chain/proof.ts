/** Checks of inclusion and consistency proofs after RFC 9162 sections 2.1.3.2 and 2.1.4.2. */
import { ok, refused, type Refused, type Result } from '../../domain/result';
import { isHash, nodeHash, sameHash, type Hash } from './hash';

export interface InclusionClaim {
  /** Position of the leaf, from 0. */
  readonly index: number;
  readonly size: number;
  readonly leaf: Hash;
  readonly root: Hash;
  readonly proof: readonly Hash[];
}

export interface ConsistencyClaim {
  readonly firstSize: number;
  readonly secondSize: number;
  readonly firstRoot: Hash;
  readonly secondRoot: Hash;
  readonly proof: readonly Hash[];
}

export type ProofFault = 'bad-size' | 'bad-hash' | 'wrong-length' | 'root-differs';

/** Whether the leaf stands at `index` in the tree of `size` leaves that has this root. */
export function checkInclusion(claim: InclusionClaim): Result<void, ProofFault> {
  const { index, size, leaf, root, proof } = claim;
  if (!isCount(size) || !isCount(index) || index >= size) return badSize('The record lies outside the journal');
  if (![leaf, root, ...proof].every(isHash)) return badHash();

  let node = leaf;
  let at = index;
  let last = size - 1;
  for (const sibling of proof) {
    if (last === 0) return wrongLength();
    if (isOdd(at) || at === last) {
      node = nodeHash(sibling, node);
      // An even node at the right edge has no sibling until the level where the edge turns odd.
      while (!isOdd(at) && at !== 0) [at, last] = [half(at), half(last)];
    } else {
      node = nodeHash(node, sibling);
    }
    [at, last] = [half(at), half(last)];
  }
  if (last !== 0) return wrongLength();
  return sameHash(node, root) ? ok(undefined) : rootDiffers();
}

/**
 * Whether the tree of `secondSize` leaves begins with all leaves of the tree of `firstSize`, in order.
 * An empty first tree is refused: every tree begins with it, so nothing would be shown.
 */
export function checkConsistency(claim: ConsistencyClaim): Result<void, ProofFault> {
  const { firstSize, secondSize, firstRoot, secondRoot, proof } = claim;
  if (!isCount(firstSize) || !isCount(secondSize) || firstSize === 0 || firstSize > secondSize) {
    return badSize('The older journal is empty or longer than the newer one');
  }
  if (firstSize === secondSize) {
    // Nothing is hashed here: the two roots are compared as they stand, as the published cases do.
    if (proof.length > 0) return wrongLength();
    return sameHash(firstRoot, secondRoot) ? ok(undefined) : rootDiffers();
  }
  if (![firstRoot, secondRoot, ...proof].every(isHash)) return badHash();
  return climb(claim);
}

function climb(claim: ConsistencyClaim): Result<void, ProofFault> {
  let at = claim.firstSize - 1;
  let last = claim.secondSize - 1;
  while (isOdd(at)) [at, last] = [half(at), half(last)];
  // Where the older tree is perfect it is itself the first node, and the proof leaves it out.
  const nodes = at === 0 ? [claim.firstRoot, ...claim.proof] : claim.proof;
  const [start, ...siblings] = nodes;
  if (start === undefined) return wrongLength();

  let older = start;
  let newer = start;
  for (const sibling of siblings) {
    if (last === 0) return wrongLength();
    if (isOdd(at) || at === last) {
      older = nodeHash(sibling, older);
      newer = nodeHash(sibling, newer);
      while (!isOdd(at) && at !== 0) [at, last] = [half(at), half(last)];
    } else {
      newer = nodeHash(newer, sibling);
    }
    [at, last] = [half(at), half(last)];
  }
  if (last !== 0) return wrongLength();
  return sameHash(older, claim.firstRoot) && sameHash(newer, claim.secondRoot) ? ok(undefined) : rootDiffers();
}

/** Division, not shifting: sizes may lie beyond 32 bits. */
function half(value: number): number {
  return Math.floor(value / 2);
}

function isOdd(value: number): boolean {
  return value % 2 === 1;
}

function isCount(value: number): boolean {
  return Number.isSafeInteger(value) && value >= 0;
}

function badSize(what: string): Refused<ProofFault> {
  return refused('bad-size', `${what}; check that the sizes belong to this proof.`);
}

function badHash(): Refused<ProofFault> {
  return refused('bad-hash', 'A hash in the proof is not 32 bytes long; the proof is damaged, ask for it again.');
}

function wrongLength(): Refused<ProofFault> {
  return refused('wrong-length', 'The proof has too few or too many hashes for these sizes; ask for it again.');
}

function rootDiffers(): Refused<ProofFault> {
  return refused('root-differs', 'The proof leads to another root: the record or the journal was altered.');
}
