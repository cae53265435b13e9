/** A journal that vanishes with its database is missed, not taken for a new one. */
import 'fake-indexeddb/auto';
import { deleteDB } from 'idb';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { createStore } from '../../../src/record/store/store';
import { countDraft } from '../../fakes/ledger-facts';

afterEach(() => vi.unstubAllGlobals());

/** As much of the browser's storage for small things as is used here. */
function stubStorage(): Map<string, string> {
  const kept = new Map<string, string>();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  });
  return kept;
}

async function appendOne(name: string): Promise<void> {
  const store = createStore({ name });
  const head = await store.open();

  if (!head.ok) throw new Error(head.detail);
  expect(await store.append(head.value, [countDraft('pack-1', 1)])).toMatchObject({ ok: true });
  store.close();
}

describe('a journal that is gone at the next start', () => {
  it('is refused as lost, and stays refused', async () => {
    stubStorage();
    await appendOne('gone');
    await deleteDB('gone');
    for (let start = 0; start < 2; start += 1) {
      const store = createStore({ name: 'gone' });
      expect(await store.open()).toMatchObject({
        ok: false,
        reason: 'corrupt',
        detail: expect.stringMatching(/no longer there.*backup/) as string,
      });
      store.close();
    }
  });

  it('is told from one of another table that never had a fact', async () => {
    stubStorage();
    await appendOne('first-table');
    const store = createStore({ name: 'second-table' });
    expect(await store.open()).toMatchObject({ ok: true, value: { size: 0 } });
    store.close();
  });

  it('is no loss where it never had a fact', async () => {
    const kept = stubStorage();
    const empty = createStore({ name: 'empty' });
    expect(await empty.open()).toMatchObject({ ok: true });
    empty.close();
    expect(kept.size).toBe(0);
    await deleteDB('empty');
    expect(await createStore({ name: 'empty' }).open()).toMatchObject({ ok: true, value: { size: 0 } });
  });

  it('an older journal is marked when it is opened', async () => {
    await appendOne('older');
    const kept = stubStorage();
    const store = createStore({ name: 'older' });
    expect(await store.open()).toMatchObject({ ok: true, value: { size: 1 } });
    store.close();
    expect(kept.size).toBe(1);
  });

  it('where the browser forbids to remember, the kiosk works all the same', async () => {
    vi.stubGlobal('localStorage', {
      getItem: () => {
        throw new DOMException('denied', 'SecurityError');
      },
      setItem: () => {
        throw new DOMException('denied', 'SecurityError');
      },
    });
    await appendOne('forbidden');
    const store = createStore({ name: 'forbidden' });
    expect(await store.open()).toMatchObject({ ok: true, value: { size: 1 } });
    store.close();
  });
});

describe('what the browser says of databases that it threw away', () => {
  it('counts also where it says so to the database before the journal', async () => {
    const open = indexedDB.open.bind(indexedDB);
    vi.spyOn(indexedDB, 'open').mockImplementation((name, version) => {
      const request = open(name, version);
      // Fake-indexeddb never loses anything, so the browser's words are put on its event.
      request.addEventListener('upgradeneeded', (event) => {
        if (name.endsWith('-log-turn')) Object.assign(event, { dataLoss: 'total', dataLossMessage: 'block checksum' });
      });
      return request;
    });
    const store = createStore({ name: 'told-before' });
    expect(await store.open()).toMatchObject({
      ok: false,
      reason: 'corrupt',
      detail: expect.stringMatching(/block checksum/) as string,
    });
    store.close();
    vi.restoreAllMocks();
  });
});
