/** Puts an exported journal back: the same bytes in the same order, so that root and every seal stay what they were. */
import { assert } from '../../domain/assert';
import { endsPack } from '../../domain/fact';
import { ok, refused, type Result } from '../../domain/result';
import type { FactDraft } from '../../domain/fact';
import type { ExportFile } from '../chain/export-file';
import { sealFact, type SealedFact } from '../chain/fact-bytes';
import { appendLeaf } from '../chain/compact-range';
import { leafHash } from '../chain/hash';
import { type Head, type LedgerFailure } from '../ledger';
import type { JournalDb } from './journal-db';
import { FRESH, makeFactRow, makeHeadRow, type FactRow, type HeadRow, type NodeRow, type PackRow } from './rows';

/** One strict transaction for all facts and the drafts that say who restored them, refused when there is a single fact already. */
export async function restoreFacts(
  db: JournalDb,
  file: ExportFile,
  drafts: readonly FactDraft[],
): Promise<Result<Head, LedgerFailure | 'not-empty'>> {
  const { facts, nodes, packs, head } = layOut(file, drafts);
  const tx = db.transaction(['facts', 'nodes', 'packs', 'head'], 'readwrite', { durability: 'strict' });
  const stores = { facts: tx.objectStore('facts'), nodes: tx.objectStore('nodes'), packs: tx.objectStore('packs') };
  const counts = await Promise.all([stores.facts.count(), stores.nodes.count(), stores.packs.count()]);
  if (counts.some((count) => count > 0)) {
    await tx.done;
    return refused('not-empty', 'This kiosk has records already, and nothing is written over them. Use an empty one.');
  }
  await Promise.all([
    ...facts.map((row) => stores.facts.add(row)),
    ...nodes.map((row) => stores.nodes.add(row)),
    ...packs.map((row) => stores.packs.add(row)),
    tx.objectStore('head').put(head),
    tx.done,
  ]);
  return ok({ size: head.size, root: head.root });
}

interface Rows {
  readonly facts: readonly FactRow[];
  readonly nodes: readonly NodeRow[];
  readonly packs: readonly PackRow[];
  readonly head: HeadRow;
}

/** All rows, made before the transaction begins: what goes wrong here leaves nothing behind. */
function layOut({ facts, head }: ExportFile, drafts: readonly FactDraft[]): Rows {
  let standing = FRESH;
  const nodes: NodeRow[] = [];
  const packs = new Map<string, PackRow>();
  const take = ({ fact, bytes, leaf }: SealedFact): FactRow => {
    const { range, completed } = appendLeaf(standing.now, leaf);
    standing = { before: standing.now, now: range };
    nodes.push(...completed.filter(({ height }) => height > 0));
    const row = packs.get(fact.pack) ?? { pack: fact.pack, first: fact.seq, count: 0, ended: 0 };
    const ended = row.ended === 1 || endsPack(fact.body) ? 1 : 0;
    packs.set(fact.pack, { ...row, count: row.count + 1, ended });
    return makeFactRow({ fact, bytes, leaf });
  };
  const rows = facts.map(({ fact, bytes }) => take({ fact, bytes, leaf: leafHash(bytes) }));
  const put = makeHeadRow(standing);
  // The caller has verified the file; a root that differs here would be a defect of ours.
  assert(put.root === head.root && put.size === head.size, 'the facts of a sound export lead to its root');
  for (const [index, draft] of drafts.entries()) {
    const sealed = sealFact(draft, head.size + index);
    assert(sealed.ok, 'what says who restored fits the record');
    rows.push(take(sealed.value));
  }
  return { facts: rows, nodes, packs: [...packs.values()], head: makeHeadRow(standing) };
}
