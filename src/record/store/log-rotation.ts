/**
 * Write-ahead-log rotation: makes Chromium begin a new log file before the journal is written to again.
 *
 * Why: Chromium keeps IndexedDB in a LevelDB log and writes each record in two steps. A kill between the two leaves half
 * a record at the end of the log. The next start passes over it, but goes on writing behind it in the same file; the
 * start after that finds a checksum that does not fit, calls the database corrupt and deletes ALL of it (measured: about
 * one in ninety kills during back-to-back appends; by hand with seven stray bytes, every time). Deleting a database,
 * however small, makes it flush everything to a table file and begin a new log; then the half record is gone.
 *
 * The deletion only orders the flush, which runs in the background when the machine has time: on a loaded one a second
 * kill came before it (measured: 2 of 210 such starts, each of which lost the journal). LevelDB holds a writer back when
 * its buffer is full while the one before is still being flushed, so filling the buffer twice is the way to know that
 * the old log is gone (measured: in 349 such starts under the same load it was, at the cost of 0.12 s a start).
 */
import { deleteDB, openDB, type IDBPDatabase } from 'idb';

const STORE = 'filling';
/** Chromium's write buffer is 4 MiB at most; two of them and some more. Each value is too short to be put in a file. */
const FILLING_BYTES = 9 * 2 ** 20;
const VALUE_BYTES = 60_000;
const VALUES_AT_ONCE = 10;

/**
 * Deletes the small database that the last start left for this, and leaves one for the next. It is made afterwards,
 * not before, so that as little as possible is written behind a half record. Failing here is not fatal: the journal's
 * own opening tells what is wrong. Gives what the browser said of databases that it threw away, or null.
 */
export async function rotateLog(journal: string): Promise<string | null> {
  const name = `${journal}-log-turn`;
  let lost: string | null = null;
  try {
    await deleteDB(name);
    const db = await openDB(name, 1, {
      upgrade(...[fresh, , , , event]) {
        lost = lossOf(event);
        fresh.createObjectStore(STORE);
      },
    });
    try {
      await fillTwice(db);
    } finally {
      db.close();
    }
  } catch {
    // Said above.
  }
  return lost;
}

/** Chromium deletes a database that it finds damaged and says so only here; an empty journal would hide the loss. */
export function lossOf(event: IDBVersionChangeEvent): string | null {
  const { dataLoss, dataLossMessage } = event as IDBVersionChangeEvent & {
    dataLoss?: string;
    dataLossMessage?: string;
  };
  return dataLoss === undefined || dataLoss === 'none' ? null : (dataLossMessage ?? dataLoss).slice(0, 500);
}

/** Always the same keys, so that the browser can clear away all but the last. Not strict, since it may be lost. */
async function fillTwice(db: IDBPDatabase): Promise<void> {
  const value = new Uint8Array(VALUE_BYTES);
  for (let bytes = 0; bytes < FILLING_BYTES; bytes += VALUE_BYTES * VALUES_AT_ONCE) {
    const filling = db.transaction(STORE, 'readwrite', { durability: 'relaxed' });
    for (let key = 0; key < VALUES_AT_ONCE; key += 1) void filling.store.put(value, key);
    await filling.done;
  }
}
