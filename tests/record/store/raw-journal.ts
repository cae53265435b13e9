/** The journal's database without our code in between, to damage it the way a disk or a stranger would. */
import { openDB, type IDBPDatabase } from 'idb';
import { createStore, type Store } from '../../../src/record/store/store';
import { countDraft } from '../../fakes/ledger-facts';

let journals = 0;

/** A database name that no other test uses. */
export function freshName(): string {
  journals += 1;
  return `journal-${journals}`;
}

/** A journal with `facts` facts, in packs of ten, closed again. */
export async function filled(facts: number): Promise<string> {
  const name = freshName();
  const store = createStore({ name });
  let head = unwrap(await store.open());
  for (let seq = 0; seq < facts; seq += 10) {
    const drafts = Array.from({ length: Math.min(10, facts - seq) }, (_, i) => countDraft(`pack-${seq / 10}`, seq + i));
    head = unwrap(await store.append(head, drafts)).head;
  }
  store.close();
  return name;
}

/** Changes the closed journal by hand. */
export async function tamper(name: string, change: (db: IDBPDatabase) => Promise<unknown>): Promise<void> {
  const db = await openDB(name);
  await change(db);
  db.close();
}

/** Changes one stored row. */
export function tamperRow<T>(name: string, key: number | string, change: (row: T) => unknown): Promise<void> {
  const store = typeof key === 'number' ? 'facts' : key === 'head' ? 'head' : 'packs';
  return tamper(name, async (db) => db.put(store, change((await db.get(store, key)) as T)));
}

/** Everything that is stored, for "nothing was touched". */
export async function snapshotOf(name: string): Promise<unknown> {
  const all: unknown[] = [];
  await tamper(name, async (db) => {
    for (const store of db.objectStoreNames) all.push(store, await db.getAll(store));
  });
  return all;
}

/** A store on the journal, opened whatever comes of it. */
export async function opened(name: string): Promise<Store> {
  const store = createStore({ name });
  await store.open();
  return store;
}

export function unwrap<T>(result: { ok: true; value: T } | { ok: false; reason: string; detail: string }): T {
  if (!result.ok) throw new Error(`${result.reason}: ${result.detail}`);
  return result.value;
}
