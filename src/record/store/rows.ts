/** The rows of the journal's object stores. What comes back from the disk is not trusted until it passed here. */
import type { Fact } from '../../domain/fact';
import { ok, refused, type Refused, type Result } from '../../domain/result';
import { parseFactBytes, type SealedFact } from '../chain/fact-bytes';
import { EMPTY_RANGE, rootOfRange, isCompactRange, type CompactRange } from '../chain/compact-range';
import { isHash, leafHash, makeHashHex, sameHash, type Hash } from '../chain/hash';
import type { LedgerFailure } from '../ledger';

export interface FactRow {
  readonly seq: number;
  /** The same as inside the bytes, for the index. */
  readonly pack: string;
  /** The evidence, exactly as hashed. */
  readonly bytes: Uint8Array;
  /** Leaf hash of `bytes`, so that damage can be pinned to this row. */
  readonly leaf: Uint8Array;
}

/** A finished inner node of the tree (heights from 1; the leaves lie with their facts), so that proofs are cheap. */
export interface NodeRow {
  readonly height: number;
  readonly index: number;
  readonly hash: Uint8Array;
}

export interface PackRow {
  readonly pack: string;
  /** Sequence number of its first fact. */
  readonly first: number;
  readonly count: number;
  /** 1 once a fact has ended it. A number, since IndexedDB has no index over booleans. */
  readonly ended: 0 | 1;
}

export interface HeadRow {
  readonly id: 'head';
  readonly size: number;
  readonly root: string;
  readonly peaks: readonly Uint8Array[];
  /** Peaks before the last fact, so that an open can check the last fact without reading the others. */
  readonly before: readonly Uint8Array[];
  /** What the browser said when it threw away the journal that was here before; null normally. */
  readonly lost: string | null;
}

/** The journal's right edge, now and one fact ago. */
export interface Standing {
  readonly now: CompactRange;
  readonly before: CompactRange;
}

export const FRESH: Standing = { now: EMPTY_RANGE, before: EMPTY_RANGE };

/** The head record for a standing. */
export function makeHeadRow({ now, before }: Standing): HeadRow {
  const root = makeHashHex(rootOfRange(now));
  return { id: 'head', size: now.size, root, peaks: now.peaks, before: before.peaks, lost: null };
}

/** The inverse of `makeHeadRow`: every part must be there and fit the others. */
export function parseHeadRow(row: unknown): Result<Standing, LedgerFailure> {
  if (!isRecord(row)) return damagedHead('it is missing');
  if (typeof row.lost === 'string') {
    return refused(
      'corrupt',
      `The browser found the journal damaged and threw it away (${row.lost}). Restore it from the last backup.`,
    );
  }
  const { size, root, peaks, before } = row;
  if (typeof size !== 'number' || !isHashList(peaks) || !isHashList(before)) return damagedHead('a part is missing');
  const now = { size, peaks };
  const earlier = { size: Math.max(0, size - 1), peaks: before };
  if (!isCompactRange(now) || !isCompactRange(earlier)) return damagedHead('its parts do not fit its size');
  if (makeHashHex(rootOfRange(now)) !== root) return damagedHead('its root does not fit its parts');
  return ok({ now, before: earlier });
}

/** The row of a sealed fact. */
export function makeFactRow({ fact, bytes, leaf }: SealedFact): FactRow {
  return { seq: fact.seq, pack: fact.pack, bytes, leaf };
}

/** The inverse of `makeFactRow`; `seq` is where the row was found. */
export function parseFactRow(row: unknown, seq: number): Result<SealedFact, LedgerFailure> {
  if (!isRecord(row) || !isBytes(row.bytes) || !isBytes(row.leaf)) return damagedFact(seq, 'a part of it is missing');
  const { bytes, leaf } = row;
  if (!sameHash(leafHash(bytes), leaf)) return damagedFact(seq, 'its bytes are not those that were stored');
  const fact = parseFactBytes(bytes);
  if (!fact.ok) {
    const newer = fact.reason === 'newer' || fact.reason === 'unknown-kind';
    return newer
      ? refused('newer', `A newer version of the kiosk wrote fact ${seq} of the journal; reload the page.`)
      : damagedFact(seq, fact.detail);
  }
  if (fact.value.seq !== seq) return damagedFact(seq, `it is fact ${fact.value.seq} in another's place`);
  if (fact.value.pack !== row.pack) return damagedFact(seq, 'it is filed under another pack');
  return ok({ fact: fact.value, bytes, leaf });
}

/** All facts of one pack from its rows, which must be as many as its summary says. */
export function parsePackRows(rows: readonly unknown[], summary: unknown): Result<readonly Fact[], LedgerFailure> {
  const expected = isRecord(summary) ? summary.count : 0;
  if (rows.length !== expected) {
    return refused(
      'corrupt',
      `This pack has ${rows.length} facts where ${String(expected)} were stored; call the lead.`,
    );
  }
  return parseFacts(rows, seqOf);
}

/** The facts of these rows, in order; `seqAt` says which number each must have. The first that is damaged ends it. */
export function parseFacts(
  rows: readonly unknown[],
  seqAt: (row: unknown, index: number) => number,
): Result<readonly Fact[], LedgerFailure> {
  const facts: Fact[] = [];
  for (const [index, row] of rows.entries()) {
    const sealed = parseFactRow(row, seqAt(row, index));
    if (!sealed.ok) return sealed;
    facts.push(sealed.value.fact);
  }
  return ok(facts);
}

/** The key that a row was stored under. */
function seqOf(row: unknown): number {
  return isRecord(row) && typeof row.seq === 'number' ? row.seq : Number.NaN;
}

export function damagedFact(seq: number, why: string): Refused<LedgerFailure> {
  return refused('corrupt', `Fact ${seq} of the journal is damaged: ${why}. Nothing more is written; call the lead.`);
}

function damagedHead(why: string): Refused<LedgerFailure> {
  return refused('corrupt', `The head of the journal is damaged: ${why}. Nothing more is written; call the lead.`);
}

export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}

function isBytes(value: unknown): value is Uint8Array {
  return value instanceof Uint8Array;
}

function isHashList(value: unknown): value is readonly Hash[] {
  return Array.isArray(value) && value.every((item) => isBytes(item) && isHash(item));
}
