/**
 * The sample store's database: one of its own, so that no export and no copy of the journal can ever hold a voice. It is opened
 * only after the journal, since the browser tells of databases that it threw away to the first that is opened; and it is
 * made only when somebody's voice is kept for the first time.
 */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { SampleRow } from './sample-row';

interface SampleSchema extends DBSchema {
  samples: { key: [owner: string, words: string]; value: SampleRow };
}
export type SampleDb = IDBPDatabase<SampleSchema>;

/** One more with every change of the layout below. */
const VERSION = 1;

/** Where the browser has no storage to open, or does not answer. */
export class SampleStoreError extends Error {
  constructor(readonly trouble: 'denied' | 'unavailable') {
    super(trouble);
  }
}

/** Whether there is such a database, so that looking for a voice makes none. */
export async function hasSampleDb(name: string): Promise<boolean> {
  needStorage();
  // Where the browser does not list its databases, one is made.
  if (!('databases' in indexedDB)) return true;
  const all = await indexedDB.databases();
  return all.some((one) => one.name === name);
}

function needStorage(): void {
  if (typeof indexedDB !== 'object' || indexedDB === null) throw new SampleStoreError('denied');
}

/** Opens or creates it. `onGone` is called when the connection has ended from outside. */
export async function openSampleDb(name: string, limitMs: number, onGone: () => void): Promise<SampleDb> {
  needStorage();
  const opening = openDB<SampleSchema>(name, VERSION, {
    upgrade: (db) => void db.createObjectStore('samples', { keyPath: ['owner', 'words'] }),
    blocking(_current, _next, event) {
      // Holding on would keep a newer kiosk, or whoever clears the page's data, waiting.
      (event.target as IDBDatabase).close();
      onGone();
    },
    terminated: onGone,
  });
  return new Promise((done, failed) => {
    let late = false;
    const timer = setTimeout(() => {
      late = true;
      failed(new SampleStoreError('unavailable'));
    }, limitMs);
    opening
      .then((db) => {
        if (late) db.close();
        else done(db);
      }, failed)
      .finally(() => clearTimeout(timer));
  });
}

/** Every row of one owner: the second part of a key is a string, and an array sorts behind all of those. */
export function rowsOf(owner: string): IDBKeyRange {
  return IDBKeyRange.bound([owner], [owner, []]);
}
