/** Proof that a stored fact stands in the journal, from the stored nodes and without reading the other facts. */
import type { IDBPTransaction } from 'idb';
import { ok, refused, type Result } from '../../domain/result';
import { rootOfRange, type CompactRange } from '../chain/compact-range';
import { isHash, type Hash } from '../chain/hash';
import { checkInclusion, type InclusionClaim } from '../chain/proof';
import { foldNodes, inclusionRanges, nodesOfRange, type NodeKey, type LeafRange } from '../chain/tree-shape';
import type { LedgerFailure } from '../ledger';
import type { JournalDb, JournalSchema } from './journal-db';
import type { NodeMemory } from './node-memory';
import { damagedFact, isRecord, parseFactRow, parseHeadRow } from './rows';

/** A transaction that sees the whole tree at one moment. */
export type TreeReading = IDBPTransaction<JournalSchema, ['facts', 'nodes', 'head'], 'readonly'>;

export function readTree(db: JournalDb): TreeReading {
  return db.transaction(['facts', 'nodes', 'head'], 'readonly');
}

/** The tree at one moment, and what is remembered of it. */
export interface Tree {
  readonly tx: TreeReading;
  readonly now: CompactRange;
  readonly memory: NodeMemory;
}

/** The leaf that is to be proved. */
interface Leaf {
  readonly seq: number;
  readonly leaf: Hash;
}

/** The proof that leads from fact `seq` to the present root; checked before it is given away. */
export async function proveFact(
  db: JournalDb,
  seq: number,
  memory: NodeMemory,
): Promise<Result<InclusionClaim, LedgerFailure>> {
  const tx = readTree(db);
  const known = Number.isSafeInteger(seq) && seq >= 0;
  const [head, found] = await Promise.all([
    tx.objectStore('head').get('head'),
    known ? tx.objectStore('facts').get(seq) : undefined,
  ]);
  const standing = parseHeadRow(head);
  if (!standing.ok) return standing;
  const { now } = standing.value;
  if (!known || seq >= now.size) {
    return refused('unavailable', `The journal has no fact ${seq}; it has ${now.size} facts, counted from 0.`);
  }
  const row = parseFactRow(found, seq);
  return row.ok ? proveLeaf({ tx, now, memory }, { seq, leaf: row.value.leaf }) : row;
}

/** The same for a leaf that has been read already. What was remembered counts only as long as it leads to the root. */
export async function proveLeaf(tree: Tree, of: Leaf): Promise<Result<InclusionClaim, LedgerFailure>> {
  const proven = await inclusionOf(tree, of);
  return proven.ok || !tree.memory.forget() ? proven : inclusionOf(tree, of);
}

async function inclusionOf(tree: Tree, { seq, leaf }: Leaf): Promise<Result<InclusionClaim, LedgerFailure>> {
  const { now } = tree;
  const ranges = inclusionRanges(seq, now.size);
  const nodes = await readNodes(tree, ranges.flatMap(nodesOfRange));
  const proof = ranges.map((range) => rangeHash(nodes, range)).filter((hash) => hash !== null);
  const claim = { index: seq, size: now.size, leaf, root: rootOfRange(now), proof };
  return checkInclusion(claim).ok ? ok(claim) : damagedFact(seq, 'it cannot be led to the root of the journal');
}

type Nodes = ReadonlyMap<string, Hash>;

const nameOf = ({ height, index }: NodeKey): string => `${height}:${index}`;

/**
 * The hashes of these nodes, asked for all at once: waiting for one after another costs more than the reading. The
 * peaks are known from the head, upper nodes from earlier proofs; the rest is read from the store.
 */
async function readNodes({ tx, now, memory }: Tree, keys: readonly NodeKey[]): Promise<Nodes> {
  const nodes = new Map<string, Hash>();
  nodesOfRange({ from: 0, to: now.size }).forEach((key, at) => {
    const peak = now.peaks[at];
    if (peak !== undefined) nodes.set(nameOf(key), peak);
  });
  for (const key of keys) {
    const known = memory.get(key);
    if (known !== null) nodes.set(nameOf(key), known);
  }
  const wanted = keys.filter((key) => !nodes.has(nameOf(key)));
  const found = await Promise.all(wanted.map((key) => nodeAt(tx, key)));
  wanted.forEach((key, at) => {
    const hash = found[at] ?? null;
    if (hash === null) return;
    nodes.set(nameOf(key), hash);
    memory.keep(key, hash);
  });
  return nodes;
}

function rangeHash(nodes: Nodes, range: LeafRange): Hash | null {
  const hashes = nodesOfRange(range).map((key) => nodes.get(nameOf(key)));
  const found = hashes.filter((hash) => hash !== undefined);
  return found.length === hashes.length ? foldNodes(found) : null;
}

async function nodeAt(tx: TreeReading, { height, index }: NodeKey): Promise<Hash | null> {
  const isLeaf = height === 0;
  const row: unknown = isLeaf
    ? await tx.objectStore('facts').get(index)
    : await tx.objectStore('nodes').get([height, index]);
  const hash = isRecord(row) ? (isLeaf ? row.leaf : row.hash) : null;
  return hash instanceof Uint8Array && isHash(hash) ? hash : null;
}
