import 'fake-indexeddb/auto';
import { deleteDB, openDB } from 'idb';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { EMPTY_RANGE, rootOfRange } from '../../../src/record/chain/compact-range';
import { makeHashHex } from '../../../src/record/chain/hash';
import { failureOf } from '../../../src/record/store/failure';
import { JOURNAL_VERSION } from '../../../src/record/store/journal-db';
import { createStore } from '../../../src/record/store/store';
import { countDraft } from '../../fakes/ledger-facts';
import { filled, freshName, snapshotOf, unwrap } from './raw-journal';

const EMPTY = { size: 0, root: makeHashHex(rootOfRange(EMPTY_RANGE)) };

afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

describe('an append', () => {
  it('asks for strict durability and answers only after the transaction is done', async () => {
    const store = createStore({ name: freshName() });
    await store.open();
    const order: string[] = [];
    const begin = IDBDatabase.prototype.transaction;
    vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...args) {
      const tx = begin.apply(this, args);
      if (args[1] === 'readwrite') {
        order.push(`begun ${tx.durability}`);
        tx.addEventListener('complete', () => order.push('done'));
      }
      return tx;
    });
    await store.append(EMPTY, [countDraft('pack-1', 1)]).then(() => order.push('answered'));
    expect(order).toEqual(['begun strict', 'done', 'answered']);
  });

  it('is refused where the browser does not know strict durability', async () => {
    const store = createStore({ name: freshName() });
    await store.open();
    const begin = IDBDatabase.prototype.transaction;
    vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, stores, mode) {
      return begin.call(this, stores, mode);
    });
    expect(await store.append(EMPTY, [countDraft('pack-1', 1)])).toMatchObject({ ok: false, reason: 'unavailable' });
    expect(await store.head()).toEqual({ ok: true, value: EMPTY });
  });

  it.each(['facts', 'packs', 'head'])('when the storage is full at the write to %s keeps nothing', async (full) => {
    const name = await filled(10);
    const store = createStore({ name });
    const head = unwrap(await store.open());
    const before = await snapshotOf(name);
    for (const method of ['add', 'put'] as const) {
      const write = IDBObjectStore.prototype[method];
      vi.spyOn(IDBObjectStore.prototype, method).mockImplementation(function (this: IDBObjectStore, ...args) {
        if (this.name === full) throw new DOMException('No room left', 'QuotaExceededError');
        return write.apply(this, args);
      });
    }
    const drafts = [countDraft('pack-0', 1), countDraft('pack-9', 2)];
    expect(await store.append(head, drafts)).toMatchObject({ ok: false, reason: 'full' });
    vi.restoreAllMocks();
    expect(await snapshotOf(name)).toEqual(before);
    expect(unwrap(await store.head())).toEqual(head);
    expect(unwrap(await store.append(head, drafts)).head.size).toBe(12);
  });

  it('that fails at the commit keeps nothing and says why', async () => {
    const name = await filled(10);
    const store = createStore({ name });
    const head = unwrap(await store.open());
    const before = await snapshotOf(name);
    const write = IDBObjectStore.prototype.put;
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, ...args) {
      const request = write.apply(this, args);
      if (this.name === 'head') request.addEventListener('success', () => this.transaction.abort());
      return request;
    });
    expect(await store.append(head, [countDraft('pack-0', 1)])).toMatchObject({ ok: false, reason: 'unavailable' });
    vi.restoreAllMocks();
    expect(await snapshotOf(name)).toEqual(before);
  });

  it('never writes over a fact that is there already', async () => {
    const name = await filled(10);
    const store = createStore({ name });
    const head = unwrap(await store.open());
    // A stranger's row lies where the next fact belongs; it came after the open.
    const db = await openDB(name);
    await db.add('facts', { seq: 10, pack: 'strange', bytes: new Uint8Array(1), leaf: new Uint8Array(32) });
    db.close();
    const before = await snapshotOf(name);
    expect(await store.append(head, [countDraft('pack-0', 1)])).toMatchObject({ ok: false, reason: 'corrupt' });
    expect(await snapshotOf(name)).toEqual(before);
  });
});

describe('an open', () => {
  it('of a journal of a newer version is refused and changes nothing', async () => {
    const name = freshName();
    const newer = await openDB(name, JOURNAL_VERSION + 1, { upgrade: (db) => void db.createObjectStore('facts-2') });
    await newer.add('facts-2', 'evidence', 1);
    newer.close();
    expect(await createStore({ name }).open()).toMatchObject({ ok: false, reason: 'newer' });
    const again = await openDB(name);
    expect(again.version).toBe(JOURNAL_VERSION + 1);
    expect(await again.get('facts-2', 1)).toBe('evidence');
    again.close();
  });

  it('of a database that is no journal is refused', async () => {
    const name = freshName();
    (await openDB(name, JOURNAL_VERSION, { upgrade: (db) => void db.createObjectStore('other') })).close();
    expect(await createStore({ name }).open()).toMatchObject({ ok: false, reason: 'corrupt' });
  });

  it('where there is no IndexedDB is refused', async () => {
    vi.stubGlobal('indexedDB', undefined);
    const store = createStore({ name: freshName() });
    expect(await store.open()).toMatchObject({ ok: false, reason: 'denied' });
    expect(await store.append(EMPTY, [])).toMatchObject({ ok: false, reason: 'denied' });
  });

  it('where looking at IndexedDB is forbidden is refused', async () => {
    const before = Object.getOwnPropertyDescriptor(globalThis, 'indexedDB');
    if (before === undefined) throw new Error('no IndexedDB to forbid');
    Object.defineProperty(globalThis, 'indexedDB', {
      configurable: true,
      get: () => {
        throw new DOMException('no', 'SecurityError');
      },
    });
    const result = await createStore({ name: freshName() }).open();
    Object.defineProperty(globalThis, 'indexedDB', before);
    expect(result).toMatchObject({ ok: false, reason: 'denied' });
  });

  it('that the browser forbids is refused', async () => {
    vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException('no', 'SecurityError');
    });
    expect(await createStore({ name: freshName() }).open()).toMatchObject({ ok: false, reason: 'denied' });
  });

  it('that never answers is given up, and the late connection is not kept', async () => {
    const name = await filled(10);
    // A deletion waits for this connection, and our open waits behind the deletion.
    const holder = await openDB(name);
    const deleting = deleteDB(name);
    const store = createStore({ name, openLimitMs: 1 });
    expect(await store.open()).toMatchObject({ ok: false, reason: 'unavailable' });
    expect(await store.head()).toMatchObject({ ok: false, reason: 'unavailable' });
    holder.close();
    await deleting;
    // Would wait for ever if the late connection were still open.
    await deleteDB(name);
  });

  it('can be tried again after it failed', async () => {
    const name = await filled(10);
    const store = createStore({ name });
    const really = indexedDB.open.bind(indexedDB);
    let failures = 0;
    vi.spyOn(indexedDB, 'open').mockImplementation((which, version) => {
      if (which !== name || failures > 0) return really(which, version);
      failures += 1;
      throw new DOMException('busy', 'UnknownError');
    });
    expect(await store.open()).toMatchObject({ ok: false, reason: 'unavailable' });
    expect(unwrap(await store.open()).size).toBe(10);
    expect(failures).toBe(1);
  });

  it('first has the browser begin a new log, and leaves what the next open needs for that', async () => {
    const name = freshName();
    const order: string[] = [];
    const [open, remove] = [indexedDB.open.bind(indexedDB), indexedDB.deleteDatabase.bind(indexedDB)];
    vi.spyOn(indexedDB, 'open').mockImplementation((which, version) => {
      order.push(`open ${which}`);
      return open(which, version);
    });
    vi.spyOn(indexedDB, 'deleteDatabase').mockImplementation((which) => {
      order.push(`delete ${which}`);
      return remove(which);
    });
    unwrap(await createStore({ name }).open());
    expect(order).toEqual([`delete ${name}-log-turn`, `open ${name}-log-turn`, `open ${name}`]);
    const left = (await indexedDB.databases()).map((db) => db.name);
    expect(left).toContain(`${name}-log-turn`);
  });

  it('goes on where the new log cannot be had', async () => {
    vi.spyOn(indexedDB, 'deleteDatabase').mockImplementation(() => {
      throw new DOMException('no', 'UnknownError');
    });
    expect(unwrap(await createStore({ name: freshName() }).open()).size).toBe(0);
  });

  it('closed before it was done stays closed', async () => {
    const store = createStore({ name: freshName() });
    const opening = store.open();
    store.close();
    expect(await opening).toMatchObject({ ok: false, reason: 'unavailable' });
    expect(await store.head()).toMatchObject({ ok: false, reason: 'unavailable' });
  });
});

describe('a newer page', () => {
  it('that wants to change the layout gets the journal at once, and this one stops', async () => {
    const name = await filled(10);
    const store = createStore({ name });
    const head = unwrap(await store.open());
    (await openDB(name, JOURNAL_VERSION + 1)).close();
    const result = await store.append(head, [countDraft('pack-0', 1)]);
    expect(result).toMatchObject({
      ok: false,
      reason: 'unavailable',
      detail: expect.stringContaining('newer version') as string,
    });
    expect(await store.open()).toMatchObject({ ok: false, reason: 'newer' });
  });
});

describe('persistent storage', () => {
  it.each([
    ['granted', async () => true],
    ['refused', async () => false],
    ['unknown', () => Promise.reject(new Error('not here'))],
  ])('is asked for at the open: %s', async (answer, persist) => {
    vi.stubGlobal('navigator', { storage: { persist } });
    const store = createStore({ name: freshName() });
    expect(await store.persistence()).toBe('unknown');
    unwrap(await store.open());
    expect(await store.persistence()).toBe(answer);
  });

  it('is not waited for: a browser that asks the person first does not hold up the open', async () => {
    vi.stubGlobal('navigator', { storage: { persist: () => new Promise(() => undefined) } });
    expect(unwrap(await createStore({ name: freshName() }).open()).size).toBe(0);
  });
});

describe('what the browser throws', () => {
  it.each([
    ['QuotaExceededError', 'full'],
    ['VersionError', 'newer'],
    ['SecurityError', 'denied'],
    ['NotAllowedError', 'denied'],
    ['ConstraintError', 'corrupt'],
    ['DataError', 'corrupt'],
    ['NotFoundError', 'corrupt'],
    ['NotReadableError', 'corrupt'],
    ['InvalidStateError', 'unavailable'],
    ['AbortError', 'unavailable'],
    ['UnknownError', 'unavailable'],
    ['TransactionInactiveError', 'unavailable'],
    ['constructor', 'unavailable'],
  ])('%s becomes %s, with its own words kept', (name, reason) => {
    const result = failureOf(new DOMException('some words', name));
    expect(result).toMatchObject({ ok: false, reason });
    expect(result.detail).toContain('some words');
  });

  it('a defect of ours is not taken for a failure of the storage', () => {
    expect(() => failureOf(new TypeError('x is undefined'))).toThrow('x is undefined');
  });
});
