/** The hashes of the journal's tree: SHA-256 with the domain separation of RFC 6962 section 2.1. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, hexToBytes } from '@noble/hashes/utils.js';
import { assert } from '../../domain/assert';
import { ok, refused, type Result } from '../../domain/result';

/** Always 32 bytes. */
export type Hash = Uint8Array;

export const HASH_BYTES = 32;
const LEAF_PREFIX = 0x00;
const NODE_PREFIX = 0x01;

/** Root of a tree without leaves: SHA-256 of nothing. */
export function emptyRoot(): Hash {
  return sha256(new Uint8Array(0));
}

/** Hash of one leaf over exactly the bytes given. */
export function leafHash(data: Uint8Array): Hash {
  const input = new Uint8Array(data.length + 1);
  input[0] = LEAF_PREFIX;
  input.set(data, 1);
  return sha256(input);
}

/** Hash of an inner node. The prefix keeps a node from being passed off as a leaf. */
export function nodeHash(left: Hash, right: Hash): Hash {
  assert(isHash(left) && isHash(right), 'both children of a node are hashes');
  const input = new Uint8Array(1 + 2 * HASH_BYTES);
  input[0] = NODE_PREFIX;
  input.set(left, 1);
  input.set(right, 1 + HASH_BYTES);
  return sha256(input);
}

/** A running plain SHA-256 over one piece after another. */
export function createDigest(): { update(piece: Uint8Array): void; hash(): Hash } {
  const running = sha256.create();
  return { update: (piece) => void running.update(piece), hash: () => running.digest() };
}

/** Whether the bytes have the length of a hash. */
export function isHash(bytes: Uint8Array): boolean {
  return bytes.length === HASH_BYTES;
}

/** Byte-wise equality. Hashes of the journal are no secrets, so constant time is not needed. */
export function sameHash(a: Hash, b: Hash): boolean {
  return a.length === b.length && a.every((byte, i) => byte === b[i]);
}

/** Lower-case hex, 64 characters. */
export function makeHashHex(hash: Hash): string {
  return bytesToHex(hash);
}

/** The inverse of `makeHashHex`; anything but 64 lower-case hex digits is `not-a-hash`. */
export function parseHashHex(hex: string): Result<Hash, 'not-a-hash'> {
  if (!/^[0-9a-f]{64}$/.test(hex)) {
    return refused('not-a-hash', 'A hash must be 64 lower-case hexadecimal digits; check that it was copied whole.');
  }
  return ok(hexToBytes(hex));
}
