/**
 * The code on a printed card: the checkpoint that was signed with the record, and what leads from the record's fact to
 * it, as one line of capitals and digits. Its form, before Base 32 and behind the letters SCP1:
 *
 *   1 byte   length of the origin, and the origin in UTF-8
 *   6 bytes  size of the journal; 6 bytes number of the fact (both with the highest byte first)
 *   32 bytes leaf hash of the fact
 *   1 byte   number of hashes of the inclusion proof, and 32 bytes for each, from the leaf up
 *   2 bytes  length of the card's line, and the line in UTF-8: the one extension line of the checkpoint
 *   4 bytes  key id, 64 bytes Ed25519 signature over the checkpoint's text
 *   2 bytes  the first of the SHA-256 of all that stands before: tells a misreading from a forgery
 *
 * The root is left out: leaf and proof give it, and only the right one has the signature.
 */
import { base32nopad } from '@scure/base';
import { assert } from '../../domain/assert';
import type { LogRecord } from '../../domain/log-record';
import { createDigest, isHash, type Hash } from './hash';
import type { InclusionClaim } from './proof';
import type { NoteSignature } from './note';
import { makeUtf8 } from './utf8';

export const PAPER_MARK = 'SCP1';

export interface PaperInput {
  readonly origin: string;
  readonly claim: InclusionClaim;
  /** The line that `makeCardLine` gave. */
  readonly line: string;
  readonly signature: NoteSignature;
}

/** The line that a card's checkpoint carries: what must not be changed on the paper without being found out. */
export function makeCardLine(seq: number, record: LogRecord): string {
  const plain = (text: string): string => text.replace(/[\s,;]+/g, ' ').trim() || 'none';
  const serials = record.serials.map(({ kind, serial }) => `${plain(kind)} ${plain(serial)}`).join(' / ');
  const by = plain(record.packers.at(-1)?.certificate ?? '');
  const line = `card; fact ${seq}; packed ${record.packedOn}; last ${record.nextDue}; by ${by}; ${serials}`;
  return line.slice(0, 400);
}

/** The text of the code. */
export function makePaperText({ origin, claim, line, signature }: PaperInput): string {
  const name = makeUtf8(origin);
  const below = makeUtf8(line);
  assert(name.length < 256 && below.length < 65_536 && claim.proof.length < 64, 'a card’s code keeps to its form');
  assert(isHash(claim.leaf) && claim.proof.every(isHash), 'a proof is made of hashes');
  assert(signature.signature.length === 64, 'an Ed25519 signature has 64 bytes');
  const parts: Uint8Array[] = [
    Uint8Array.of(name.length),
    name,
    number(claim.size, 6),
    number(claim.index, 6),
    claim.leaf,
    Uint8Array.of(claim.proof.length),
    ...claim.proof,
    number(below.length, 2),
    below,
    number(Number.parseInt(signature.keyId, 16), 4),
    signature.signature,
  ];
  return PAPER_MARK + base32nopad.encode(joined([...parts, checkOf(parts)]));
}

function number(value: number, length: number): Uint8Array {
  assert(Number.isSafeInteger(value) && value >= 0 && value < 256 ** length, 'a number fits its bytes');
  return Uint8Array.from({ length }, (_, at) => Math.floor(value / 256 ** (length - 1 - at)) % 256);
}

function checkOf(parts: readonly Uint8Array[]): Hash {
  const digest = createDigest();
  for (const part of parts) digest.update(part);
  return digest.hash().subarray(0, 2);
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
