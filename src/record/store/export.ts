/** Reads the journal, or one pack with the proof of each of its facts, as it goes into an export file. */
import { ok, type Result } from '../../domain/result';
import type { ExportedFact, ExportFile } from '../chain/export-file';
import type { SealedFact } from '../chain/fact-bytes';
import type { LedgerFailure } from '../ledger';
import { headOf } from './audit';
import type { JournalDb } from './journal-db';
import { createNodeMemory } from './node-memory';
import { proveLeaf, readTree } from './prove';
import { damagedFact, isRecord, parseFactRow, parseHeadRow } from './rows';

const BATCH = 500;

/** Every fact up to the head at the time of the call. One damaged fact refuses the whole, and is named. */
export async function exportJournal(db: JournalDb): Promise<Result<ExportFile, LedgerFailure>> {
  const standing = parseHeadRow(await db.get('head', 'head'));
  if (!standing.ok) return standing;
  const { size } = standing.value.now;
  const facts: ExportedFact[] = [];
  while (facts.length < size) {
    const to = Math.min(facts.length + BATCH, size);
    const rows = await db.getAll('facts', IDBKeyRange.bound(facts.length, to, false, true));
    if (rows.length !== to - facts.length) return damagedFact(facts.length, 'it, or one that follows soon, is missing');
    for (const row of rows) {
      const sealed = parseFactRow(row, facts.length);
      if (!sealed.ok) return sealed;
      facts.push(withPath(sealed.value, []));
    }
  }
  return ok({ head: headOf(standing.value.now), pack: null, facts, checkpoints: [], keys: [] });
}

/** The facts of one pack, each with what leads from it to the head. */
export async function exportPack(db: JournalDb, pack: string): Promise<Result<ExportFile, LedgerFailure>> {
  const tx = readTree(db);
  const standing = parseHeadRow(await tx.objectStore('head').get('head'));
  if (!standing.ok) return standing;
  const { now } = standing.value;
  const memory = createNodeMemory();
  const facts: ExportedFact[] = [];
  for (const row of await tx.objectStore('facts').index('pack').getAll(pack)) {
    const sealed = parseFactRow(row, isRecord(row) ? row.seq : Number.NaN);
    if (!sealed.ok) return sealed;
    const { fact, leaf } = sealed.value;
    const claim = await proveLeaf({ tx, now, memory }, { seq: fact.seq, leaf });
    if (!claim.ok) return claim;
    facts.push(withPath(sealed.value, claim.value.proof));
  }
  return ok({ head: headOf(now), pack, facts, checkpoints: [], keys: [] });
}

function withPath({ fact, bytes }: SealedFact, path: ExportedFact['path']): ExportedFact {
  return { fact, bytes, path };
}
