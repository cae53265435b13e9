/** The sample store on IndexedDB in memory: kept under a digest, replaced, erased, bounded, and never fatal. */
import 'fake-indexeddb/auto';
import { deleteDB, openDB } from 'idb';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { createVoiceSampleStore } from '../../../src/voice/sample-store/sample-store';
import { PEOPLE_MAX, SAMPLES_MAX, type VoiceSampleStore } from '../../../src/voice/voice-sample-store';
import { fakeSample } from '../../fakes/ear';

const owner = (number: number): string => number.toString(16).padStart(64, '0');
const HAZEL = owner(0xa1);
const INES = owner(0xb2);
const LINES = ['stage complete', 'affirm', 'stand by'].map(fakeSample);

let names = 0;
let name = '';
/** A busy machine is slow, not silent: only a test of silence has a short limit. */
function fresh(limitMs = 60_000): VoiceSampleStore {
  name = `voices-${(names += 1)}`;
  return createVoiceSampleStore({ name, limitMs });
}

async function wordsOf(sampleStore: VoiceSampleStore, whose: string): Promise<readonly string[]> {
  const found = await sampleStore.find(whose);
  if (!found.ok) throw new Error(found.detail);
  return found.value.samples.map(({ words }) => words);
}

/** Puts something into the database by another way than the sample store. */
async function smuggle(...rows: readonly object[]): Promise<void> {
  const db = await openDB(name, 1);
  for (const row of rows) await db.put('samples', row);
  db.close();
}

afterEach(() => {
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

describe('a voice in the sample store', () => {
  it('comes back as it was kept, also to the next start', async () => {
    expect(await fresh().keep(HAZEL, LINES)).toEqual({ ok: true, value: undefined });
    const found = await createVoiceSampleStore({ name }).find(HAZEL);
    const sorted = [...LINES].sort((a, b) => (a.words < b.words ? -1 : 1));
    expect(found).toEqual({ ok: true, value: { samples: sorted, skipped: [] } });
  });

  it('is nobody else’s', async () => {
    const sampleStore = fresh();
    await sampleStore.keep(HAZEL, LINES);
    expect(await wordsOf(sampleStore, INES)).toEqual([]);
  });

  it('replaces the former one whole: no line of that is left', async () => {
    const sampleStore = fresh();
    await sampleStore.keep(HAZEL, LINES);
    await sampleStore.keep(INES, LINES);
    await sampleStore.keep(HAZEL, [fakeSample('item placed')]);
    expect(await wordsOf(sampleStore, HAZEL)).toEqual(['item placed']);
    expect(await wordsOf(sampleStore, INES)).toHaveLength(3);
  });

  it('is gone when it was erased, and others are not', async () => {
    const sampleStore = fresh();
    await sampleStore.keep(HAZEL, LINES);
    await sampleStore.keep(INES, LINES);
    expect((await sampleStore.erase(HAZEL)).ok).toBe(true);
    expect(await wordsOf(createVoiceSampleStore({ name }), HAZEL)).toEqual([]);
    expect(await wordsOf(sampleStore, INES)).toHaveLength(3);
  });

  it('goes with its owner: only those of the loft stay', async () => {
    const sampleStore = fresh();
    await sampleStore.keep(HAZEL, LINES);
    await sampleStore.keep(INES, LINES);
    await sampleStore.eraseOthers([INES]);
    expect(await wordsOf(sampleStore, HAZEL)).toEqual([]);
    expect(await wordsOf(sampleStore, INES)).toHaveLength(3);
  });

  it('is written durably', async () => {
    const sampleStore = fresh();
    await sampleStore.keep(HAZEL, LINES);
    const transaction = vi.spyOn(IDBDatabase.prototype, 'transaction');
    await sampleStore.keep(HAZEL, LINES);
    await sampleStore.erase(HAZEL);
    await sampleStore.eraseOthers([]);
    expect(transaction.mock.calls.map((call) => call[2])).toEqual(Array(3).fill({ durability: 'strict' }));
  });

  it('holds neither a name nor a badge: owners are digests, and nothing else is taken for one', async () => {
    const sampleStore = fresh();
    await sampleStore.keep(HAZEL, LINES);
    const db = await openDB(name, 1);
    for (const row of (await db.getAll('samples')) as readonly object[]) {
      expect(Object.keys(row).sort()).toEqual(['features', 'owner', 'version', 'width', 'words']);
    }
    db.close();
    await expect(sampleStore.keep('hazel-orrin', LINES)).rejects.toThrow('digest');
  });
});

describe('looking for a voice', () => {
  it('makes no database where there is none', async () => {
    const sampleStore = fresh();
    await sampleStore.find(HAZEL);
    await sampleStore.erase(HAZEL);
    await sampleStore.eraseOthers([]);
    expect((await indexedDB.databases()).map((one) => one.name)).not.toContain(name);
  });
});

describe('what is in the sample store and should not be', () => {
  it.each([
    ['a row of another version', { version: 2 }, /another version/],
    ['features of another width', { width: 20 }, /another kind/],
    ['a row whose frames are not whole', { features: new Float32Array(14) }, /damaged/],
    ['a row without features', { features: 'none' }, /damaged/],
  ])('%s is named and passed over', async (_, wrong, why) => {
    const sampleStore = fresh();
    await sampleStore.keep(HAZEL, LINES);
    await smuggle({ owner: HAZEL, words: 'zz top', version: 1, width: 13, features: new Float32Array(13), ...wrong });
    const found = await sampleStore.find(HAZEL);
    expect(found.ok && found.value.samples).toHaveLength(3);
    expect(found.ok && found.value.skipped).toEqual([expect.stringMatching(why)]);
    await sampleStore.erase(HAZEL);
    expect(await sampleStore.find(HAZEL)).toEqual({ ok: true, value: { samples: [], skipped: [] } });
  });

  it('rows of nobody go when the sample store is tidied', async () => {
    const sampleStore = fresh();
    await sampleStore.keep(HAZEL, LINES);
    await smuggle({ owner: 'somebody', words: 'x' }, { owner: 7, words: 9 });
    await sampleStore.eraseOthers([HAZEL]);
    const db = await openDB(name, 1);
    expect(await db.count('samples')).toBe(3);
    db.close();
  });
});

describe('the bounds', () => {
  it('one more person than fits is refused, and replacing one of them is not', async () => {
    const sampleStore = fresh();
    for (let number = 0; number < PEOPLE_MAX; number += 1)
      await sampleStore.keep(owner(number), [fakeSample('affirm')]);
    expect(await sampleStore.keep(owner(PEOPLE_MAX), LINES)).toMatchObject({ ok: false, reason: 'crowded' });
    expect((await sampleStore.keep(owner(3), LINES)).ok).toBe(true);
    await sampleStore.erase(owner(3));
    expect((await sampleStore.keep(owner(PEOPLE_MAX), LINES)).ok).toBe(true);
  });

  it('no more samples than a person may have, none that is broken, and not none', async () => {
    const sampleStore = fresh();
    const many = Array.from({ length: SAMPLES_MAX + 1 }, (_, index) => fakeSample(`line ${index}`));
    await expect(sampleStore.keep(HAZEL, many)).rejects.toThrow();
    await expect(sampleStore.keep(HAZEL, [])).rejects.toThrow();
    await expect(sampleStore.keep(HAZEL, [{ words: 'affirm', features: new Float32Array(3) }])).rejects.toThrow();
    expect((await sampleStore.keep(HAZEL, many.slice(1))).ok).toBe(true);
  });
});

describe('trouble with the storage is a refusal and never fatal', () => {
  it('where there is none', async () => {
    const sampleStore = fresh();
    vi.stubGlobal('indexedDB', undefined);
    for (const tried of [
      sampleStore.find(HAZEL),
      sampleStore.keep(HAZEL, LINES),
      sampleStore.erase(HAZEL),
      sampleStore.eraseOthers([]),
    ]) {
      expect(await tried).toMatchObject({ ok: false, reason: 'denied' });
    }
  });

  it.each([
    ['SecurityError', 'denied'],
    ['QuotaExceededError', 'full'],
    ['UnknownError', 'unavailable'],
  ])('%s is told as %s, and the next try opens it anew', async (thrown, reason) => {
    const sampleStore = fresh();
    const open = vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException('no', thrown);
    });
    expect(await sampleStore.keep(HAZEL, LINES)).toMatchObject({ ok: false, reason });
    open.mockRestore();
    expect((await sampleStore.keep(HAZEL, LINES)).ok).toBe(true);
  });

  it('a database of a later version', async () => {
    const sampleStore = fresh();
    (await openDB(name, 2)).close();
    expect(await sampleStore.find(HAZEL)).toMatchObject({ ok: false, reason: 'newer' });
  });

  it('one that never answers', async () => {
    const sampleStore = fresh(50);
    vi.spyOn(indexedDB, 'open').mockImplementation(() => new IDBOpenDBRequest());
    expect(await sampleStore.keep(HAZEL, LINES)).toMatchObject({ ok: false, reason: 'unavailable' });
  });

  it('a transaction that fails leaves what was there', async () => {
    const sampleStore = fresh();
    await sampleStore.keep(HAZEL, LINES);
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore) {
      this.transaction.abort();
      throw new DOMException('no room', 'QuotaExceededError');
    });
    expect(await sampleStore.keep(HAZEL, [fakeSample('affirm')])).toMatchObject({ ok: false, reason: 'full' });
    put.mockRestore();
    expect(await wordsOf(sampleStore, HAZEL)).toHaveLength(3);
  });

  it('whoever clears the data of the page is not kept waiting', async () => {
    const sampleStore = fresh();
    await sampleStore.keep(HAZEL, LINES);
    await deleteDB(name);
    expect(await wordsOf(sampleStore, HAZEL)).toEqual([]);
  });
});
