/** The journal in this browser's IndexedDB: the real device behind the ledger port. */
import { LOFT_STREAM, type FactDraft } from '../../domain/fact';
import { ok, refused, type Refused, type Result } from '../../domain/result';
import type { ExportFile } from '../chain/export-file';
import type { InclusionClaim } from '../chain/proof';
import type { Head, LedgerFailure, LedgerPort } from '../ledger';
import { appendFacts } from './append';
import { auditStore, checkAtOpen, headOf, type Audit } from './audit';
import { exportJournal, exportPack } from './export';
import { failureOf } from './failure';
import { openJournal, type JournalDb } from './journal-db';
import { createNodeMemory } from './node-memory';
import { proveFact } from './prove';
import { restoreFacts } from './restore';
import { parseFactRow, parseFacts, parseHeadRow, parsePackRows } from './rows';
import { markJournal } from './journal-marker';

export interface StoreOptions {
  /** Name of the database; one for each table. */
  readonly name: string;
  /** Milliseconds after which an open that does not answer counts as failed; 15,000 unless given. */
  readonly openLimitMs?: number;
}

/** Whether the browser promised not to clear the storage by itself; `unknown` where it cannot be asked or does not say. */
export type Persistence = 'granted' | 'refused' | 'unknown';

export interface Store extends LedgerPort {
  /** Checks every fact and names the damaged ones. Damage that it finds stops further appends. */
  audit(): Promise<Result<Audit, LedgerFailure>>;
  /** Proof that fact `seq` stands in the journal as it is now. */
  prove(seq: number): Promise<Result<InclusionClaim, LedgerFailure>>;
  /** The whole journal for `null`, or one pack, ready for `makeExportText`. */
  export(pack: string | null): Promise<Result<ExportFile, LedgerFailure>>;
  /** The stored bytes of fact `seq`, checked. */
  bytesOf(seq: number): Promise<Result<Uint8Array, LedgerFailure>>;
  /** Puts the facts of a whole journal into this one, which must have none: all of them durably, or nothing. */
  restore(file: ExportFile, drafts: readonly FactDraft[]): Promise<Result<Head, LedgerFailure | 'not-empty'>>;
  /** The answer to the request for persistent storage that `open` makes. */
  persistence(): Promise<Persistence>;
}

const OPEN_LIMIT_MS = 15_000;

/** Makes the store; nothing is touched before `open`. */
export function createStore(options: StoreOptions): Store {
  return new IndexedStore(options);
}

class IndexedStore implements Store {
  private db: JournalDb | null = null;
  private opening: Promise<Result<Head, LedgerFailure>> | null = null;
  /** Why there is no connection. */
  private absent: Refused<LedgerFailure> = refused('unavailable', 'The journal is not open; start the kiosk again.');
  /** Set once damage was found: the rest stays readable, but nothing is written on top of it. */
  private damage: Refused<LedgerFailure> | null = null;
  /** Counts closings, so that a connection that opens after its closing is not kept. */
  private closings = 0;
  private marked = false;
  private memory = createNodeMemory();
  private asked: Promise<Persistence> = Promise.resolve('unknown');

  constructor(private readonly options: StoreOptions) {}

  open(): Promise<Result<Head, LedgerFailure>> {
    if (this.db !== null) return this.head();
    this.opening ??= this.connect().finally(() => {
      this.opening = null;
    });
    return this.opening;
  }

  async head(): Promise<Result<Head, LedgerFailure>> {
    return this.with(async (db) => {
      const standing = this.damage ?? parseHeadRow(await db.get('head', 'head'));
      if (!standing.ok) return standing;
      return ok(headOf(standing.value.now));
    });
  }

  async append(expected: Head, drafts: readonly FactDraft[]) {
    const appended = await this.with(async (db) => this.damage ?? appendFacts(db, expected, drafts));
    if (appended.ok) this.mark(appended.value.head);
    return appended;
  }

  async read(pack: string) {
    return this.with(async (db) => {
      const tx = db.transaction(['facts', 'packs'], 'readonly');
      const [rows, summary] = await Promise.all([
        tx.objectStore('facts').index('pack').getAll(pack),
        tx.objectStore('packs').get(pack),
      ]);
      return parsePackRows(rows, summary);
    });
  }

  async recent(count: number) {
    return this.with(async (db) => {
      const standing = parseHeadRow(await db.get('head', 'head'));
      if (!standing.ok) return standing;
      const from = Math.max(0, standing.value.now.size - count);
      return parseFacts(await db.getAll('facts', IDBKeyRange.lowerBound(from)), (_row, index) => from + index);
    });
  }

  async range(seq: number, count: number) {
    return this.with(async (db) => {
      const rows = count < 1 ? [] : await db.getAll('facts', IDBKeyRange.bound(seq, seq + count - 1));
      return parseFacts(rows, (_row, index) => seq + index);
    });
  }

  async openPacks() {
    return this.with(async (db) => {
      const rows = await db.getAllFromIndex('packs', 'ended', 0);
      const packs = rows.filter(({ pack }) => pack !== LOFT_STREAM);
      return ok(packs.sort((a, b) => a.first - b.first).map(({ pack }) => pack));
    });
  }

  async audit() {
    return this.with(async (db) => {
      const audit = await auditStore(db);
      const first = audit.ok ? audit.value.damages[0] : undefined;
      if (first !== undefined) this.damage ??= refused('corrupt', first.detail);
      return audit;
    });
  }

  async prove(seq: number) {
    return this.with((db) => proveFact(db, seq, this.memory));
  }

  async export(pack: string | null) {
    return this.with((db) => (pack === null ? exportJournal(db) : exportPack(db, pack)));
  }

  async bytesOf(seq: number) {
    return this.with(async (db) => {
      const row: unknown = await db.get('facts', seq);
      if (row === undefined) return refused('unavailable', `The journal has no fact ${seq}.`);
      const sealed = parseFactRow(row, seq);
      return sealed.ok ? ok(sealed.value.bytes) : sealed;
    });
  }

  async restore(file: ExportFile, drafts: readonly FactDraft[]) {
    const { db } = this;
    if (db === null) return this.absent;
    try {
      const restored = await restoreFacts(db, file, drafts);
      // Whatever was wrong with the empty journal is mended.
      if (restored.ok) {
        this.damage = null;
        this.mark(restored.value);
      }
      return restored;
    } catch (error) {
      return failureOf(error);
    }
  }

  persistence(): Promise<Persistence> {
    return this.asked;
  }

  close(): void {
    this.closings += 1;
    this.db?.close();
    this.lose(refused('unavailable', 'The journal was closed; start the kiosk again.'));
  }

  private async connect(): Promise<Result<Head, LedgerFailure>> {
    const closings = this.closings;
    const opened = await openJournal({
      name: this.options.name,
      limitMs: this.options.openLimitMs ?? OPEN_LIMIT_MS,
      onLost: (why) => this.lose(refused('unavailable', `${why}; reload the page.`)),
    });
    if (!opened.ok) {
      this.absent = opened;
      return opened;
    }
    if (closings !== this.closings) {
      opened.value.close();
      return this.absent;
    }
    this.db = opened.value;
    this.damage = null;
    this.memory = createNodeMemory();
    this.asked = askToPersist();
    const checked = await this.with(checkAtOpen);
    if (checked.ok) this.mark(checked.value);
    return checked;
  }

  /** Once is enough while this page is open. */
  private mark({ size }: Head): void {
    if (this.marked || size === 0) return;
    this.marked = true;
    markJournal(this.options.name);
  }

  private lose(why: Refused<LedgerFailure>): void {
    this.db = null;
    this.absent = why;
  }

  /** Runs work on the open journal; every failure comes back as a value, and damage is remembered. */
  private async with<T>(work: (db: JournalDb) => Promise<Result<T, LedgerFailure>>): Promise<Result<T, LedgerFailure>> {
    if (this.db === null) return this.absent;
    let result: Result<T, LedgerFailure>;
    try {
      result = await work(this.db);
    } catch (error) {
      result = failureOf(error);
    }
    if (!result.ok && result.reason === 'corrupt') this.damage ??= result;
    return result;
  }
}

/** Firefox asks the person and answers only then, so nobody waits for this before the first fact. */
async function askToPersist(): Promise<Persistence> {
  try {
    return (await navigator.storage.persist()) ? 'granted' : 'refused';
  } catch {
    return 'unknown';
  }
}
