/**
 * Remembers outside IndexedDB that a journal has been here. A browser that finds its databases damaged deletes them all
 * and says so to the first one that is opened afterwards, which need not be the journal; and a program that ends just
 * then has told nobody. Without this the next start would find an empty journal and take it for a new one.
 */

const keyOf = (journal: string): string => `stowcall-journal-kept:${journal}`;

/** Says that the journal of this name has facts. Where the browser keeps nothing, nothing is remembered. */
export function markJournal(journal: string): void {
  try {
    localStorage.setItem(keyOf(journal), 'yes');
  } catch {
    // The journal itself is what counts: without the marker only a deleted journal is not noticed.
  }
}

/** Whether a journal of this name has had facts here. */
export function hasHadJournal(journal: string): boolean {
  try {
    return localStorage.getItem(keyOf(journal)) !== null;
  } catch {
    return false;
  }
}
