/**
 * Makes Chromium begin a new log file before the journal is written to again.
 *
 * Why: Chromium keeps IndexedDB in a LevelDB log and writes each record in two steps. A kill between the two leaves half
 * a record at the end of the log. The next start passes over it, but goes on writing behind it in the same file; the
 * start after that finds a checksum that does not fit, calls the database corrupt and deletes ALL of it (measured: about
 * one in ninety kills during back-to-back appends; by hand with seven stray bytes, every time). Deleting a database, however small,
 * makes it flush everything to a table file and begin a new log, so the half record is gone before it can do harm.
 */
import { deleteDB, openDB } from 'idb';

/**
 * Deletes the small database that the last start left for this, and leaves one for the next. It is made afterwards,
 * not before, so that as little as possible is written behind a half record. Failing here is not fatal: the journal's
 * own opening tells what is wrong.
 */
export async function turnLog(journal: string): Promise<void> {
  const name = `${journal}-log-turn`;
  try {
    await deleteDB(name);
    const db = await openDB(name, 1, { upgrade: (fresh) => void fresh.createObjectStore('nothing') });
    db.close();
  } catch {
    // Said above.
  }
}
