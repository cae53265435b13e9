/**
 * Tells a test of every append of the journal at the moment at which the browser calls it complete: not by the kiosk's
 * own word, and before its screen has said anything.
 */
import type { BrowserContext } from '@playwright/test';

/** Called with the stored texts of the facts of one append, in order. */
export type OnStored = (texts: readonly string[]) => void;

interface HookedWindow extends Window {
  storedFacts(texts: readonly string[]): Promise<void>;
}

/** Runs in the page before its own scripts. Must be self-contained: it is sent as source. */
function watchAppends(): void {
  const batches = new WeakMap<IDBTransaction, string[]>();
  const proto = IDBObjectStore.prototype;
  for (const method of ['add', 'put'] as const) {
    const original = proto[method];
    proto[method] = function (this: IDBObjectStore, row: unknown, ...rest: [IDBValidKey?]) {
      const { transaction } = this;
      const bytes = (row as { bytes?: Uint8Array }).bytes;
      if (this.name === 'facts' && transaction.db.name === 'stowcall' && bytes !== undefined) {
        let batch = batches.get(transaction);
        if (batch === undefined) {
          const fresh: string[] = [];
          batch = fresh;
          batches.set(transaction, fresh);
          transaction.addEventListener('complete', () => void (window as unknown as HookedWindow).storedFacts(fresh));
        }
        batch.push(new TextDecoder().decode(bytes));
      }
      return original.call(this, row, ...rest);
    };
  }
}

/** Puts the hook into every page of this browser; before its first page. */
export async function onStored(context: BrowserContext, told: OnStored): Promise<void> {
  await context.exposeBinding('storedFacts', (_, texts: readonly string[]) => told(texts));
  await context.addInitScript({ content: `globalThis.__name ??= (named) => named; (${watchAppends.toString()})()` });
}
