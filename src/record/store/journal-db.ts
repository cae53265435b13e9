/** How the journal lies in IndexedDB, and the way to open it. */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import { ok, refused, type Result } from '../../domain/result';
import type { LedgerFailure } from '../ledger';
import { failureOf } from './failure';
import { lossOf, rotateLog } from './log-rotation';
import { makeHeadRow, FRESH, type FactRow, type HeadRow, type NodeRow, type PackRow } from './rows';
import { hasHadJournal } from './journal-marker';

/** One more with every change of the layout below. */
export const JOURNAL_VERSION = 1;

export interface JournalSchema extends DBSchema {
  facts: { key: number; value: FactRow; indexes: { pack: string } };
  nodes: { key: [height: number, index: number]; value: NodeRow };
  packs: { key: string; value: PackRow; indexes: { ended: number } };
  head: { key: string; value: HeadRow };
}
export type JournalDb = IDBPDatabase<JournalSchema>;

export interface OpenOptions {
  readonly name: string;
  /** Milliseconds after which an open that does not answer counts as failed. */
  readonly limitMs: number;
  /** The connection ended from outside; why, in words. */
  readonly onLost: (why: string) => void;
}

/** Opens or creates the journal. Never waits for ever: a page of another version may be holding it. */
export async function openJournal(options: OpenOptions): Promise<Result<JournalDb, LedgerFailure>> {
  if (!hasIndexedDb()) return refused('denied', 'This browser gives no storage to this page; allow it and try again.');
  let late = false;
  const opening = connect(options).then(
    (db) => {
      // Somebody else may wait for us to let go, so a connection that nobody wants any more is closed.
      if (late) db.close();
      return ok(db);
    },
    (error: unknown) => failureOf(error),
  );
  const opened = await within(opening, options.limitMs);
  if (opened === null) {
    late = true;
    return refused(
      'unavailable',
      'The storage does not answer; close every other page of the kiosk and start it again.',
    );
  }
  if (opened.ok && !isWhole(opened.value)) {
    opened.value.close();
    return refused('corrupt', 'The storage is not laid out as a journal; keep it as it is and call the lead.');
  }
  return opened;
}

async function connect({ name, onLost }: OpenOptions): Promise<JournalDb> {
  const lost = (await rotateLog(name)) ?? (hasHadJournal(name) ? 'it is no longer there' : null);
  return openDB<JournalSchema>(name, JOURNAL_VERSION, {
    // The fifth argument is the browser's own event.
    upgrade: (...args) => layOut(args[0], lossOf(args[4]) ?? lost),
    blocking(_current, next, event) {
      // Holding on would keep a newer kiosk from starting. Transactions under way are still finished by the browser.
      (event.target as IDBDatabase).close();
      onLost(
        next === null ? 'The journal is being deleted' : 'A newer version of the kiosk has taken over the journal',
      );
    },
    terminated: () => onLost('The browser ended the connection to the storage'),
  });
}

function layOut(db: JournalDb, lost: string | null): void {
  db.createObjectStore('facts', { keyPath: 'seq' }).createIndex('pack', 'pack');
  db.createObjectStore('nodes', { keyPath: ['height', 'index'] });
  db.createObjectStore('packs', { keyPath: 'pack' }).createIndex('ended', 'ended');
  const head = db.createObjectStore('head', { keyPath: 'id' });
  // A failure of this request ends the upgrade, which the opening then reports.
  head.add({ ...makeHeadRow(FRESH), lost }).catch(() => undefined);
}

function isWhole(db: JournalDb): boolean {
  return (['facts', 'nodes', 'packs', 'head'] as const).every((store) => db.objectStoreNames.contains(store));
}

function hasIndexedDb(): boolean {
  try {
    return typeof indexedDB === 'object' && indexedDB !== null;
  } catch {
    return false;
  }
}

/** The promise's value, or null when it takes longer. */
async function within<T>(promise: Promise<T>, limitMs: number): Promise<T | null> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const limit = new Promise<null>((resolve) => {
    timer = setTimeout(() => resolve(null), limitMs);
  });
  try {
    return await Promise.race([promise, limit]);
  } finally {
    clearTimeout(timer);
  }
}
