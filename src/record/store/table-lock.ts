/** One page at a time is in charge of a table: Web Locks decide which, and hand over when that page goes away. */

/**
 * `unsupported`: the browser has no Web Locks (the page is not on localhost or https). Nobody is kept out then, but
 * the ledger's compare-and-swap still turns a second writer away.
 */
export type TableHold = 'mine' | 'taken' | 'unsupported';

/** Ends of the holds of this page, by name. */
const holds = new Map<string, () => void>();

/** Takes the table if no other page has it. `onLost` is called when another page seizes it later. */
export async function takeTable(name: string, onLost: () => void): Promise<TableHold> {
  if (holds.has(name)) return 'mine';
  return request(name, onLost, { ifAvailable: true });
}

/** Resolves to `mine` as soon as the page that has the table goes away; pages that wait are served in order. */
export async function waitForTable(name: string, onLost: () => void): Promise<'mine' | 'unsupported'> {
  if (holds.has(name)) return 'mine';
  return (await request(name, onLost, {})) === 'unsupported' ? 'unsupported' : 'mine';
}

/**
 * Lets go, so that a page that waits can take over. Closing the page does the same.
 * @internal A page keeps its lock until it ends; only tests give one back.
 */
export function releaseTable(name: string): void {
  holds.get(name)?.();
  holds.delete(name);
}

function request(name: string, onLost: () => void, options: LockOptions): Promise<TableHold> {
  const locks = lockManager();
  if (locks === null) return Promise.resolve('unsupported');
  return new Promise((resolve, reject) => {
    const held = locks.request(`stowcall-table:${name}`, options, (lock) => {
      if (lock === null) {
        resolve('taken');
        return;
      }
      // The lock is held for as long as this promise is open.
      const hold = new Promise<void>((release) => holds.set(name, release));
      resolve('mine');
      return hold;
    });
    held.catch((error: unknown) => {
      // Seized while held: the promise above is settled already. Refused before: nobody was told yet.
      if (holds.delete(name)) onLost();
      else reject(error instanceof Error ? error : new Error(String(error)));
    });
  });
}

function lockManager(): LockManager | null {
  return typeof navigator === 'object' && 'locks' in navigator ? navigator.locks : null;
}
