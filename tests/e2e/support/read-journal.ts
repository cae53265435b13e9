/** Reads the journal straight from the page's IndexedDB, past the kiosk's own code. */
import type { Page } from '@playwright/test';
import type { Fact } from '../../../src/domain/fact';

/** All facts in order, as their stored bytes say. */
export async function readJournal(page: Page): Promise<readonly Fact[]> {
  const texts = await page.evaluate(async () => {
    const name = (await indexedDB.databases()).find((db) => db.name?.startsWith('stowcall'))?.name;
    if (name === undefined) return [];
    const db = await new Promise<IDBDatabase>((done, fail) => {
      const opening = indexedDB.open(name);
      opening.onsuccess = () => done(opening.result);
      opening.onerror = () => fail(opening.error ?? new Error('no journal'));
    });
    const rows = await new Promise<{ bytes: Uint8Array }[]>((done, fail) => {
      const all = db.transaction('facts').objectStore('facts').getAll();
      all.onsuccess = () => done(all.result as { bytes: Uint8Array }[]);
      all.onerror = () => fail(all.error ?? new Error('no facts'));
    });
    db.close();
    return rows.map(({ bytes }) => new TextDecoder().decode(bytes));
  });
  return texts.map((text) => JSON.parse(text) as Fact);
}
