/** Proof that a stored fact stands in the journal, from the stored nodes and without reading the other facts. */
import { ok, refused, type Result } from '../../domain/result';
import { isHash, type Hash } from '../chain/hash';
import { checkInclusion, type InclusionClaim } from '../chain/proof';
import { foldNodes, inclusionRuns, nodesOfRun, type NodeKey, type Run } from '../chain/tree-shape';
import { frontierRoot } from '../chain/frontier';
import type { LedgerFailure } from '../ledger';
import type { JournalDb } from './journal-db';
import { damagedFact, isRecord, parseFactRow, parseHeadRow } from './rows';

/** The proof that leads from fact `seq` to the present root; checked before it is given away. */
export async function proveFact(db: JournalDb, seq: number): Promise<Result<InclusionClaim, LedgerFailure>> {
  const tx = db.transaction(['facts', 'nodes', 'head'], 'readonly');
  const standing = parseHeadRow(await tx.objectStore('head').get('head'));
  if (!standing.ok) return standing;
  const { now } = standing.value;
  if (!Number.isSafeInteger(seq) || seq < 0 || seq >= now.size) {
    return refused('unavailable', `The journal has no fact ${seq}; it has ${now.size} facts, counted from 0.`);
  }
  const row = parseFactRow(await tx.objectStore('facts').get(seq), seq);
  if (!row.ok) return row;

  const nodeAt = async ({ height, index }: NodeKey): Promise<Hash | null> => {
    const found: unknown =
      height === 0 ? await tx.objectStore('facts').get(index) : await tx.objectStore('nodes').get([height, index]);
    const hash = isRecord(found) ? (height === 0 ? found.leaf : found.hash) : null;
    return hash instanceof Uint8Array && isHash(hash) ? hash : null;
  };
  const runHash = async (run: Run): Promise<Hash | null> => {
    const hashes = (await Promise.all(nodesOfRun(run).map(nodeAt))).filter((hash) => hash !== null);
    return hashes.length === nodesOfRun(run).length ? foldNodes(hashes) : null;
  };
  const proof = (await Promise.all(inclusionRuns(seq, now.size).map(runHash))).filter((hash) => hash !== null);
  const claim = { index: seq, size: now.size, leaf: row.value.leaf, root: frontierRoot(now), proof };
  return checkInclusion(claim).ok ? ok(claim) : damagedFact(seq, 'it cannot be led to the root of the journal');
}
