/** Checks of a stored journal: a quick one at every open, and a whole one that names every damaged fact. */
import { endsPack } from '../../domain/fact';
import { ok, refused, type Result } from '../../domain/result';
import { EMPTY_RANGE, extendRange, rootOfRange, type CompactRange } from '../chain/compact-range';
import { makeHashHex, sameHash, type Hash } from '../chain/hash';
import { type Head, type LedgerFailure } from '../ledger';
import type { JournalDb } from './journal-db';
import { damagedFact, isRecord, parseFactRow, parseHeadRow, type PackRow, type Standing } from './rows';

/**
 * The check at open, of cost that hardly grows with the journal: the head fits itself, as many facts are there as it
 * says, none lies beyond it, and the last fact's bytes lead from the head before to this one.
 */
export async function checkAtOpen(db: JournalDb): Promise<Result<Head, LedgerFailure>> {
  const tx = db.transaction(['facts', 'head'], 'readonly');
  const facts = tx.objectStore('facts');
  const [row, count, lastKey] = await Promise.all([
    tx.objectStore('head').get('head'),
    facts.count(),
    facts.openKeyCursor(null, 'prev').then((cursor) => cursor?.key ?? -1),
  ]);
  const standing = parseHeadRow(row);
  if (!standing.ok) return standing;
  const { size } = standing.value.now;
  if (count !== size || lastKey !== size - 1) {
    const what = `The journal holds ${count} facts up to number ${lastKey + 1} where ${size} were stored`;
    return refused('corrupt', `${what}. Nothing more is written; call the lead.`);
  }
  if (size > 0) {
    const last = parseFactRow(await facts.get(size - 1), size - 1);
    if (!last.ok) return last;
    if (!leadsOn(standing.value, last.value.leaf)) return damagedFact(size - 1, 'it does not fit the head');
  }
  return ok(headOf(standing.value.now));
}

function leadsOn({ before, now }: Standing, leaf: Hash): boolean {
  return sameHash(rootOfRange(extendRange(before, leaf)), rootOfRange(now));
}

export interface Damage {
  /** The fact that is damaged; null where it is the head or a summary. */
  readonly seq: number | null;
  readonly detail: string;
}

export interface Audit {
  readonly head: Head;
  /** Empty for a sound journal; at most `MAX_DAMAGES`. */
  readonly damages: readonly Damage[];
}

const MAX_DAMAGES = 1_000;
const BATCH = 500;

/** Reads and hashes every stored fact. Facts that are appended meanwhile are taken in. */
export async function auditStore(db: JournalDb): Promise<Result<Audit, LedgerFailure>> {
  const walk = new Walk();
  for (;;) {
    const standing = parseHeadRow(await db.get('head', 'head'));
    if (!standing.ok) return standing;
    while (walk.size < standing.value.now.size) {
      const to = Math.min(walk.size + BATCH, standing.value.now.size);
      walk.take(await readRows(db, walk.size, to), to);
    }
    const tx = db.transaction(['packs', 'head'], 'readonly');
    const [row, packs] = await Promise.all([tx.objectStore('head').get('head'), tx.objectStore('packs').getAll()]);
    const end = parseHeadRow(row);
    if (!end.ok) return end;
    if (end.value.now.size > walk.size) continue;
    walk.finish(end.value.now, packs);
    return ok({ head: headOf(end.value.now), damages: walk.damages });
  }
}

/** One pass over the journal: what the facts read so far say about head and packs. */
class Walk {
  readonly damages: Damage[] = [];
  size = 0;
  private range: CompactRange = EMPTY_RANGE;
  /** False once a leaf is unknown: the root can then not be recomputed. */
  private hashable = true;
  private readonly packs = new Map<string, PackRow>();

  /** Rows of the facts from `this.size` up to `to`, at most one for each. */
  take(rows: ReadonlyMap<number, unknown>, to: number): void {
    for (; this.size < to; this.size += 1) {
      const row = rows.get(this.size);
      const leaf = isRecord(row) ? row.leaf : undefined;
      if (leaf instanceof Uint8Array && leaf.length === 32) this.range = extendRange(this.range, leaf);
      else this.hashable = false;
      const sealed = row === undefined ? damagedFact(this.size, 'it is missing') : parseFactRow(row, this.size);
      if (!sealed.ok) this.note(this.size, sealed.detail);
      else this.count(sealed.value.fact.pack, endsPack(sealed.value.fact.body));
    }
  }

  finish(head: CompactRange, packs: readonly unknown[]): void {
    if (this.hashable && !sameHash(rootOfRange(this.range), rootOfRange(head))) {
      this.note(null, 'The stored facts do not lead to the root of the head: one was exchanged with its hash.');
    }
    // Summaries can only be judged when every fact could be read.
    if (this.damages.length > 0) return;
    const stored = new Map(packs.filter(isRecord).map((row) => [row.pack, row]));
    for (const row of this.packs.values()) {
      const found = stored.get(row.pack);
      const fits = found?.first === row.first && found.count === row.count && found.ended === row.ended;
      if (!fits) this.note(null, `The summary of pack ${row.pack} does not fit its facts.`);
    }
    if (stored.size !== this.packs.size) this.note(null, 'There are summaries of packs that have no facts.');
  }

  private count(pack: string, ends: boolean): void {
    const row = this.packs.get(pack) ?? { pack, first: this.size, count: 0, ended: 0 };
    this.packs.set(pack, { ...row, count: row.count + 1, ended: ends ? 1 : row.ended });
  }

  private note(seq: number | null, detail: string): void {
    if (this.damages.length < MAX_DAMAGES) this.damages.push({ seq, detail });
  }
}

/** The rows `[from, to)` by sequence number. Where the batch cannot be read, each row is tried alone. */
async function readRows(db: JournalDb, from: number, to: number): Promise<Map<number, unknown>> {
  const rows = new Map<number, unknown>();
  try {
    for (const row of await db.getAll('facts', IDBKeyRange.bound(from, to, false, true))) rows.set(row.seq, row);
  } catch {
    for (let seq = from; seq < to; seq += 1) {
      rows.set(seq, await db.get('facts', seq).catch((error: unknown) => ({ unreadable: String(error) })));
    }
  }
  return rows;
}

/** The head as the port tells it. */
export function headOf(range: CompactRange): Head {
  return { size: range.size, root: makeHashHex(rootOfRange(range)) };
}
