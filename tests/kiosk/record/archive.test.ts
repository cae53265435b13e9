/** The record as a whole on IndexedDB in memory: export, restore, journals that were rolled back, and cards. */
import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { parseExportText } from '../../../src/record/chain/export-file';
import { createStore } from '../../../src/record/store/store';
import { countDraft, draftOf, SAMPLE_BODIES } from '../../fakes/ledger-facts';
import { byLead, restoreAt } from '../../fakes/restoring';
import { filled, tamperRow } from '../../record/store/raw-journal';
import { read, type Kiosk, kiosk, rolledBack, unwrap } from './kiosks';

describe('restoring', () => {
  it('onto an empty kiosk gives the same root, and a journal that can be audited, proved and added to', async () => {
    const { store, archive } = await kiosk();
    const file = unwrap(parseExportText(new TextDecoder().decode(read('sound.jsonl'))));
    const restored = unwrap(await restoreAt(archive, read('sound.jsonl')));
    expect(unwrap(await store.audit())).toEqual({ head: restored, damages: [] });
    // Behind what was put back stands who did it, with the head that it then had, and the people file by which it was allowed.
    expect(restored.size).toBe(file.head.size + 2);
    const stream = unwrap(await store.read('loft')).map(({ body }) => body);
    expect(stream).toMatchObject([{ kind: 'restored', by: byLead().by, ...file.head }, { kind: 'peopleInForce' }]);
    expect(unwrap(await store.prove(100)).index).toBe(100);
    expect(unwrap(await store.openPacks())).toEqual([]);
    const head = unwrap(await store.append(unwrap(await store.head()), [countDraft('pack-9', 1)])).head;
    expect(head.size).toBe(restored.size + 1);
  });

  it('and exporting again keeps every fact, checkpoint and key, and the whole is sound', async () => {
    const { archive } = await kiosk();
    unwrap(await restoreAt(archive, read('sound.jsonl')));
    const before = unwrap(parseExportText(new TextDecoder().decode(read('sound.jsonl'))));
    const text = unwrap(await archive.exportText(null));
    const after = unwrap(parseExportText(text));
    expect(after.facts.slice(0, before.facts.length)).toEqual(before.facts);
    expect(after.checkpoints.slice(0, before.checkpoints.length)).toEqual(before.checkpoints);
    expect(after.keys.slice(0, -1)).toEqual(before.keys);
    expect((await archive.verify(new TextEncoder().encode(text))).findings).toEqual([]);
  });

  it('a kiosk that opens it anew finds it sound', async () => {
    const { archive, store, name } = await kiosk();
    const head = unwrap(await restoreAt(archive, read('sound.jsonl')));
    store.close();
    expect(unwrap(await createStore({ name }).open())).toEqual(head);
  });

  it('mends a kiosk whose browser threw its journal away, and nothing else does', async () => {
    const name = await filled(0);
    await tamperRow<object>(name, 'head', (row) => ({ ...row, lost: 'damaged' }));
    const { store, archive } = await kiosk(name);
    expect(await store.head()).toMatchObject({ ok: false, reason: 'corrupt' });
    expect(await store.append({ size: 0, root: '' }, [countDraft('pack-1', 1)])).toMatchObject({ reason: 'corrupt' });
    const head = unwrap(await restoreAt(archive, read('sound.jsonl')));
    expect(unwrap(await store.head())).toEqual(head);
    expect(unwrap(await store.append(head, [countDraft('pack-1', 1)])).head.size).toBe(head.size + 1);
  });

  it('onto one that has facts is refused, and nothing is touched', async () => {
    const { store, archive } = await kiosk();
    const head = unwrap(await store.append(unwrap(await store.head()), [countDraft('pack-1', 1)])).head;
    expect(await restoreAt(archive, read('sound.jsonl'))).toMatchObject({ ok: false, reason: 'not-empty' });
    expect(unwrap(await store.head())).toEqual(head);
  });

  it.each([
    ['a tampered export', 'tampered-24-due-date.jsonl', 'not-sound'],
    ['an export that was cut', 'tampered-06-truncated.jsonl', 'not-sound'],
    ['one pack alone', 'sound-one-pack.jsonl', 'not-sound'],
    ['something else', 'README.md', 'not-sound'],
  ])('from %s is refused', async (_, file, reason) => {
    const { store, archive } = await kiosk();
    expect(await restoreAt(archive, read(file))).toMatchObject({ ok: false, reason });
    expect(unwrap(await store.head()).size).toBe(0);
  });
});

describe('a journal that was rolled back', () => {
  const sealedAt2 = async (): Promise<Kiosk> => {
    const one = await kiosk();
    unwrap(await one.store.append(unwrap(await one.store.head()), [countDraft('pack-1', 1), countDraft('pack-1', 2)]));
    unwrap(await one.archive.exportText(null));
    return one;
  };

  it('is not sealed, and says how much is missing', async () => {
    const { archive } = await rolledBack((await sealedAt2()).name);
    const exported = await archive.exportText(null);
    expect(exported).toMatchObject({ ok: false, reason: 'rolled-back' });
    if (!exported.ok)
      expect(exported.detail).toMatch(/sealed 2 facts, and the journal holds only 1: the last 1 are missing/);
  });

  it('is not mended by restoring something older than the seals', async () => {
    const { name } = await sealedAt2();
    const earlier = await kiosk();
    unwrap(await earlier.store.append(unwrap(await earlier.store.head()), [countDraft('pack-1', 1)]));
    const old = new TextEncoder().encode(unwrap(await earlier.archive.exportText(null)));
    const empty = await rolledBack(name, 0);
    const restored = await restoreAt(empty.archive, old);
    expect(restored.ok).toBe(false);
  });
});

describe('a card', () => {
  const SIGNED = draftOf('pack-1', SAMPLE_BODIES.signed);

  it('is genuine at the kiosk that printed it, also after more was recorded', async () => {
    const { store, archive } = await kiosk();
    const { facts, head } = unwrap(await store.append(unwrap(await store.head()), [countDraft('pack-1', 1), SIGNED]));
    const text = unwrap(await archive.sealRecord(facts[1]!));
    unwrap(await store.append(head, [countDraft('pack-2', 1)]));
    const verdict = await archive.verifyCard(text);
    expect(verdict).toMatchObject({ genuine: true, seq: 1 });
    expect(verdict.says).toContainEqual({ name: 'Last day of use', value: '2027-05-24' });
  });

  it('of a key that came with a restored file is not said to be genuine', async () => {
    const { archive } = await kiosk();
    unwrap(await restoreAt(archive, read('sound.jsonl')));
    const verdict = await archive.verifyCard(new TextDecoder().decode(read('card.txt')).trim());
    expect(verdict.genuine).toBe(false);
    expect(verdict.differs.join()).toMatch(/came with a restored file: whose it is is not known here/);
  });

  it('of this kiosk whose fact the journal lacks says that records are missing', async () => {
    const { store, archive, name } = await kiosk();
    const { facts } = unwrap(await store.append(unwrap(await store.head()), [countDraft('pack-1', 1), SIGNED]));
    const text = unwrap(await archive.sealRecord(facts[1]!));
    const rolled = await rolledBack(name);
    const verdict = await rolled.archive.verifyCard(text);
    expect(verdict.genuine).toBe(false);
    expect(verdict.differs.join()).toMatch(/journal has no fact 1: records are missing/);
  });

  it('of another loft is not', async () => {
    const verdict = await (await kiosk()).archive.verifyCard(new TextDecoder().decode(read('card.txt')).trim());
    expect(verdict.genuine).toBe(false);
    expect(verdict.differs.join()).toMatch(/none of the keys/);
  });

  it('is made for a signed record alone', async () => {
    const { store, archive } = await kiosk();
    const { facts } = unwrap(await store.append(unwrap(await store.head()), [countDraft('pack-1', 1)]));
    expect(await archive.sealRecord(facts[0]!)).toMatchObject({ ok: false, reason: 'not-signed' });
  });
});
