/** One append: read the head, compare, write facts and new head, in one strict transaction. */
import { endsPack, type FactDraft } from '../../domain/fact';
import { ok, refused, type Result } from '../../domain/result';
import { sealFact, type SealedFact } from '../chain/fact-bytes';
import { rootOfRange, appendLeaf } from '../chain/compact-range';
import { makeHashHex } from '../chain/hash';
import { type Appended, type Head, type LedgerFailure } from '../ledger';
import { failed, failureOf } from './failure';
import type { JournalDb } from './journal-db';
import { makeFactRow, makeHeadRow, parseHeadRow, type NodeRow, type PackRow, type Standing } from './rows';

/** The port's `append` on an open journal. Throws, with nothing stored, when a draft cannot be read back. */
export async function appendFacts(
  db: JournalDb,
  expected: Head,
  drafts: readonly FactDraft[],
): Promise<Result<Appended, LedgerFailure>> {
  const tx = db.transaction(['facts', 'nodes', 'packs', 'head'], 'readwrite', { durability: 'strict' });
  const done = watched(tx.done);
  try {
    if (tx.durability !== 'strict') {
      return refused('unavailable', 'This browser cannot promise that a record survives a power cut; use another one.');
    }
    const standing = parseHeadRow(await tx.objectStore('head').get('head'));
    if (!standing.ok) return standing;
    if (!stands(standing.value, expected)) return failed('headMoved');

    const { sealed, nodes, standing: next } = seal(standing.value, drafts);
    const packs = await packRowsAfter((pack) => tx.objectStore('packs').get(pack), sealed);
    const headRow = makeHeadRow(next);
    // `add`, never `put`, for facts and nodes: a row that is there already is evidence and is not written over.
    await Promise.all([
      ...sealed.map((one) => watched(tx.objectStore('facts').add(makeFactRow(one)))),
      ...nodes.map((node) => watched(tx.objectStore('nodes').add(node))),
      ...packs.map((row) => watched(tx.objectStore('packs').put(row))),
      watched(tx.objectStore('head').put(headRow)),
      done,
    ]);
    return ok({ facts: sealed.map(({ fact }) => fact), head: { size: headRow.size, root: headRow.root } });
  } catch (error) {
    abandon(tx);
    return failureOf(error);
  }
}

/** Whether the journal stands where the caller believes. */
function stands({ now }: Standing, expected: Head): boolean {
  return now.size === expected.size && makeHashHex(rootOfRange(now)) === expected.root;
}

interface Sealed {
  readonly sealed: readonly SealedFact[];
  /** Inner nodes that the facts complete. */
  readonly nodes: readonly NodeRow[];
  readonly standing: Standing;
}

function seal(from: Standing, drafts: readonly FactDraft[]): Sealed {
  let standing = from;
  const nodes: NodeRow[] = [];
  const sealed = drafts.map((draft) => {
    const one = sealFact(draft, standing.now.size);
    if (!one.ok) throw new Error(`Broken assumption: a draft fits the record. ${one.detail}`);
    const { range, completed } = appendLeaf(standing.now, one.value.leaf);
    nodes.push(...completed.filter(({ height }) => height > 0));
    standing = { before: standing.now, now: range };
    return one.value;
  });
  return { sealed, nodes, standing };
}

/** The summaries of all packs that the facts belong to, brought up to date. */
async function packRowsAfter(
  read: (pack: string) => Promise<PackRow | undefined>,
  sealed: readonly SealedFact[],
): Promise<PackRow[]> {
  const rows = new Map<string, PackRow>();
  for (const { fact } of sealed) {
    const { pack, seq, body } = fact;
    const row = rows.get(pack) ?? (await read(pack)) ?? { pack, first: seq, count: 0, ended: 0 };
    const ended = row.ended === 1 || endsPack(body) ? 1 : 0;
    rows.set(pack, { ...row, count: row.count + 1, ended });
  }
  return [...rows.values()];
}

/** A write that fails after another one did is not looked at any more, and must not count as unhandled. */
function watched<T>(write: Promise<T>): Promise<T> {
  write.catch(() => undefined);
  return write;
}

/** Nothing of a failed append may stay. A transaction that has ended already says so by throwing. */
function abandon(tx: { abort(): void }): void {
  try {
    tx.abort();
  } catch {
    // Already aborted by the browser.
  }
}
