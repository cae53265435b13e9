import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { leafHash } from '../../../src/record/chain/hash';
import type { FactRow, HeadRow, PackRow } from '../../../src/record/store/rows';
import { createStore } from '../../../src/record/store/store';
import { countDraft } from '../../fakes/ledger-facts';
import { filled, opened, snapshotOf, tamper, tamperRow, unwrap } from './raw-journal';

const flipBit = (bytes: Uint8Array, bit: number): Uint8Array =>
  bytes.with(bit >> 3, (bytes[bit >> 3] ?? 0) ^ (1 << (bit & 7)));

/** 34 facts in four packs: `pack-0` to `pack-2` of ten, `pack-3` of four. */
const FACTS = 34;

describe('damage that an open can see is refused at once', () => {
  const CASES: readonly (readonly [string, (name: string) => Promise<void>, RegExp])[] = [
    [
      'a bit of the last fact',
      (name) => tamperRow<FactRow>(name, 33, (row) => ({ ...row, bytes: flipBit(row.bytes, 99) })),
      /Fact 33/,
    ],
    [
      'the last fact exchanged together with its hash',
      (name) =>
        tamperRow<FactRow>(name, 33, (row) => {
          const bytes = new TextEncoder().encode(
            new TextDecoder().decode(row.bytes).replace('"count":33', '"count":32'),
          );
          return { ...row, bytes, leaf: leafHash(bytes) };
        }),
      /Fact 33 .* does not fit the head/,
    ],
    ['the last fact is gone', (name) => tamper(name, (db) => db.delete('facts', 33)), /holds 33 facts/],
    [
      'a fact in the middle is gone',
      (name) => tamper(name, (db) => db.delete('facts', 7)),
      /holds 33 facts .* 34 were stored/,
    ],
    [
      'a fact beyond the head',
      (name) => tamper(name, async (db) => db.add('facts', { ...(await db.get('facts', 33)), seq: 34 })),
      /holds 35 facts/,
    ],
    [
      'a fact moved from the middle to the end',
      (name) =>
        tamper(name, async (db) => {
          await db.add('facts', { ...(await db.get('facts', 7)), seq: 34 });
          await db.delete('facts', 7);
        }),
      /holds 34 facts up to number 35/,
    ],
    ['no head', (name) => tamper(name, (db) => db.delete('head', 'head')), /head .* missing/],
    ['a head of another size', (name) => tamperRow<HeadRow>(name, 'head', (row) => ({ ...row, size: 33 })), /head/],
    [
      'a head of another root',
      (name) => tamperRow<HeadRow>(name, 'head', (row) => ({ ...row, root: '0'.repeat(64) })),
      /root/,
    ],
    [
      'a bit of a peak',
      (name) =>
        tamperRow<HeadRow>(name, 'head', (row) => ({ ...row, peaks: row.peaks.map((peak) => flipBit(peak, 3)) })),
      /root/,
    ],
    [
      'a peak too few',
      (name) => tamperRow<HeadRow>(name, 'head', (row) => ({ ...row, peaks: row.peaks.slice(1) })),
      /size/,
    ],
    [
      'no peaks',
      (name) => tamperRow<HeadRow>(name, 'head', (row) => ({ ...row, peaks: undefined })),
      /part is missing/,
    ],
    [
      'a size that is no number',
      (name) => tamperRow<HeadRow>(name, 'head', (row) => ({ ...row, size: '34' })),
      /part is missing/,
    ],
    [
      'peaks that are no hashes',
      (name) => tamperRow<HeadRow>(name, 'head', (row) => ({ ...row, before: row.before.map(() => 'x') })),
      /part is missing/,
    ],
    [
      'the browser threw the old journal away',
      (name) => tamperRow<HeadRow>(name, 'head', (row) => ({ ...row, lost: 'I/O error: 000012.ldb' })),
      /threw it away .*backup/,
    ],
  ];

  it.each(CASES)('%s', async (_, damage, words) => {
    const name = await filled(FACTS);
    await damage(name);
    const before = await snapshotOf(name);
    const store = createStore({ name });
    const result = await store.open();
    expect(result).toMatchObject({ ok: false, reason: 'corrupt', detail: expect.stringMatching(words) as string });
    // Nothing is written on top of it, whatever head the caller believes in.
    for (const size of [33, 34, 35]) {
      const head = { size, root: '0'.repeat(64) };
      expect(await store.append(head, [countDraft('pack-9', 1)])).toMatchObject({ ok: false, reason: 'corrupt' });
    }
    expect(await store.head()).toMatchObject({ ok: false, reason: 'corrupt' });
    expect(await store.open()).toMatchObject({ ok: false, reason: 'corrupt' });
    store.close();
    expect(await snapshotOf(name)).toEqual(before);
  });
});

describe('damage in the middle', () => {
  const alter = (name: string) => tamperRow<FactRow>(name, 12, (row) => ({ ...row, bytes: flipBit(row.bytes, 40) }));

  it('is named by its number when its pack is read; other packs stay readable; no more is written', async () => {
    const name = await filled(FACTS);
    await alter(name);
    const store = createStore({ name });
    const head = unwrap(await store.open());
    expect(await store.read('pack-1')).toMatchObject({
      ok: false,
      reason: 'corrupt',
      detail: expect.stringContaining('Fact 12 ') as string,
    });
    expect(unwrap(await store.read('pack-0')).length).toBe(10);
    expect(unwrap(await store.read('pack-3')).length).toBe(4);
    expect(unwrap(await store.openPacks()).length).toBe(4);
    expect(await store.append(head, [countDraft('pack-0', 1)])).toMatchObject({ ok: false, reason: 'corrupt' });
    expect(await store.head()).toMatchObject({ ok: false, reason: 'corrupt' });
  });

  it('is found by an audit, which then stops appends', async () => {
    const name = await filled(FACTS);
    await alter(name);
    const store = createStore({ name });
    const head = unwrap(await store.open());
    const audit = unwrap(await store.audit());
    expect(audit.damages).toEqual([{ seq: 12, detail: expect.stringContaining('Fact 12 ') as string }]);
    expect(audit.head).toEqual(head);
    expect(await store.append(head, [countDraft('pack-0', 1)])).toMatchObject({ ok: false, reason: 'corrupt' });
  });

  it('a fact that has left its pack is missed when the pack is read', async () => {
    const name = await filled(FACTS);
    await tamperRow<FactRow>(name, 12, (row) => ({ ...row, pack: 'pack-2' }));
    const store = await opened(name);
    expect(await store.read('pack-1')).toMatchObject({ ok: false, reason: 'corrupt' });
    expect(await store.read('pack-2')).toMatchObject({ ok: false, reason: 'corrupt' });
  });
});

describe('an audit', () => {
  it('finds nothing in a sound journal of several batches, and none in an empty one', async () => {
    for (const facts of [0, 1, 1_234]) {
      const name = await filled(facts);
      const store = createStore({ name });
      const head = unwrap(await store.open());
      expect(unwrap(await store.audit())).toEqual({ head, damages: [] });
      expect((await store.append(head, [countDraft('pack-0', 1)])).ok).toBe(true);
    }
  });

  const each = async (damage: (name: string) => Promise<void>) => {
    const name = await filled(FACTS);
    await damage(name);
    return unwrap(await (await opened(name)).audit()).damages;
  };

  it('names every damaged fact, whatever is wrong with it', async () => {
    const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
    const rewrite = (row: FactRow, from: string, to: string): FactRow => {
      const bytes = new TextEncoder().encode(text(row.bytes).replace(from, to));
      return { ...row, bytes, leaf: leafHash(bytes) };
    };
    const damages = await each(async (name) => {
      await tamperRow<FactRow>(name, 1, (row) => ({ ...row, bytes: flipBit(row.bytes, 7) }));
      await tamperRow<FactRow>(name, 2, (row) => ({ ...row, leaf: flipBit(row.leaf, 7) }));
      await tamperRow<FactRow>(name, 3, (row) => ({ ...row, bytes: 'text' }));
      await tamperRow<FactRow>(name, 4, (row) => ({ ...row, leaf: undefined }));
      await tamperRow<FactRow>(name, 5, (row) => rewrite(row, '"seq":5', '"seq":6'));
      await tamperRow<FactRow>(name, 6, (row) => rewrite(row, '"pack":"pack-0"', '"pack":"pack-9"'));
      await tamperRow<FactRow>(name, 7, (row) => rewrite(row, '"v":1', '"v":2'));
      await tamperRow<FactRow>(name, 8, (row) => rewrite(row, 'counted', 'conjured'));
      await tamperRow<FactRow>(name, 9, (row) => rewrite(row, '"count":9', '"count": 9'));
    });
    expect(damages.map(({ seq }) => seq)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
  });

  it('finds a fact that was exchanged together with its hash, though it cannot say which', async () => {
    const damages = await each((name) =>
      tamperRow<FactRow>(name, 12, (row) => {
        const bytes = new TextEncoder().encode(new TextDecoder().decode(row.bytes).replace('"count":12', '"count":13'));
        return { ...row, bytes, leaf: leafHash(bytes) };
      }),
    );
    expect(damages).toEqual([{ seq: null, detail: expect.stringContaining('root') as string }]);
  });

  it('finds two facts that changed places', async () => {
    const damages = await each((name) =>
      tamper(name, async (db) => {
        const [a, b] = [(await db.get('facts', 4)) as FactRow, (await db.get('facts', 5)) as FactRow];
        await db.put('facts', { ...a, seq: 5 });
        await db.put('facts', { ...b, seq: 4 });
      }),
    );
    expect(damages.slice(0, 2).map(({ seq }) => seq)).toEqual([4, 5]);
  });

  it.each<[string, (row: PackRow) => PackRow]>([
    ['ended though it is open', (row) => ({ ...row, ended: 1 })],
    ['of another length', (row) => ({ ...row, count: 9 })],
    ['that begins elsewhere', (row) => ({ ...row, first: 0 })],
  ])('finds a summary of a pack %s', async (_, change) => {
    const damages = await each((name) => tamperRow<PackRow>(name, 'pack-2', change));
    expect(damages).toEqual([{ seq: null, detail: expect.stringContaining('pack-2') as string }]);
  });

  it('finds a summary too many and one too few', async () => {
    const none = await each((name) => tamper(name, (db) => db.delete('packs', 'pack-2')));
    expect(none[0]?.detail).toContain('pack-2');
    const more = await each((name) =>
      tamper(name, (db) => db.add('packs', { pack: 'x', first: 0, count: 0, ended: 0 })),
    );
    expect(more[0]?.detail).toContain('no facts');
  });

  it('takes in what is appended while it runs', async () => {
    const name = await filled(1_234);
    const store = createStore({ name });
    const head = unwrap(await store.open());
    const auditing = store.audit();
    const after = unwrap(await store.append(head, [countDraft('pack-0', 1), countDraft('pack-x', 1)])).head;
    expect(unwrap(await auditing)).toEqual({ head: after, damages: [] });
  });

  it('of a journal without head is refused', async () => {
    const name = await filled(FACTS);
    await tamper(name, (db) => db.delete('head', 'head'));
    expect(await (await opened(name)).audit()).toMatchObject({ ok: false, reason: 'corrupt' });
  });
});

describe('one bit changed anywhere in any stored fact', () => {
  it('is never read as a sound pack', async () => {
    const name = await filled(4);
    const rows: FactRow[] = [];
    await tamper(name, async (db) => rows.push(...((await db.getAll('facts')) as FactRow[])));
    const [row] = rows;
    if (row === undefined) throw new Error('no fact');
    const store = createStore({ name });
    unwrap(await store.open());
    for (let bit = 0; bit < row.bytes.length * 8; bit += 5) {
      await tamper(name, (db) => db.put('facts', { ...row, bytes: flipBit(row.bytes, bit) }));
      expect(await store.read('pack-0')).toMatchObject({ ok: false, reason: 'corrupt' });
    }
  });
});
