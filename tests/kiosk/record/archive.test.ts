/** The record as a whole on IndexedDB in memory: export, restore, cards, copies, and the records page behind them. */
import 'fake-indexeddb/auto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { createArchive, type Archive } from '../../../src/kiosk/record/archive';
import { createBackup, type BackupHost, type Folder } from '../../../src/kiosk/record/backup';
import { Records } from '../../../src/kiosk/record/records';
import { megabytes, roomWarning } from '../../../src/kiosk/record/storage-room';
import { parseExportText } from '../../../src/record/chain/export-file';
import { createCheckpointSigner } from '../../../src/record/seal/checkpoint-signer';
import { createStore, type Store } from '../../../src/record/store/store';
import { countDraft, draftOf, SAMPLE_BODIES } from '../../fakes/ledger-facts';
import { byLead, restoreAt } from '../../fakes/restoring';
import { filled, tamperRow } from '../../record/store/raw-journal';

const DEMO = join(import.meta.dirname, '../../../demo-data/exports');
const read = (file: string): Uint8Array => new Uint8Array(readFileSync(join(DEMO, file)));
let kiosks = 0;

interface Kiosk {
  readonly store: Store;
  readonly archive: Archive;
  readonly name: string;
}

async function kiosk(name = `kiosk-${(kiosks += 1)}`): Promise<Kiosk> {
  const store = createStore({ name });
  await store.open();
  return {
    store,
    archive: createArchive(store, createCheckpointSigner({ name: `${name}-seals`, keyName: 'x/y' })),
    name,
  };
}

/** Another journal beside the seals of this kiosk, as after an old disk image was put back. */
async function rolledBack(name: string, facts = 1): Promise<Kiosk> {
  const store = createStore({ name: `${name}-old-${(kiosks += 1)}` });
  const drafts = Array.from({ length: facts }, (_, at) => countDraft('pack-1', at + 1));
  const head = unwrap(await store.open());
  if (facts > 0) unwrap(await store.append(head, drafts));
  return {
    store,
    archive: createArchive(store, createCheckpointSigner({ name: `${name}-seals`, keyName: 'x/y' })),
    name,
  };
}

function unwrap<T>(result: { ok: true; value: T } | { ok: false; reason: string; detail: string }): T {
  if (!result.ok) throw new Error(`${result.reason}: ${result.detail}`);
  return result.value;
}

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

/** A folder in memory that can be unplugged. */
function folderOf(name: string): { folder: Folder; files: Map<string, string>; unplug: () => void } {
  const files = new Map<string, string>();
  let there = true;
  const folder: Folder = {
    name,
    getFileHandle: async (file) => ({
      createWritable: async () => {
        let text = '';
        return {
          write: async (more) => {
            if (!there) throw new DOMException('gone', 'NotFoundError');
            text += more;
          },
          close: async () => void files.set(file, text),
          abort: async () => undefined,
        };
      },
    }),
  };
  return { folder, files, unplug: () => (there = false) };
}

describe('the records page', () => {
  const page = async (host: BackupHost, one?: Kiosk) => {
    const { store, archive, name } = one ?? (await kiosk());
    const saved: [string, string][] = [];
    const signer = createCheckpointSigner({ name: `${name}-seals`, keyName: 'x/y' });
    let chosen: Folder | null = null;
    const memory = {
      get: () => Promise.resolve(chosen),
      set: (folder: Folder) => Promise.resolve(void (chosen = folder)),
    };
    const backup = createBackup(memory, host);
    const now = () => '2026-11-25T14:03:11.250+01:00';
    const save = (file: string, text: string): void => void saved.push([file, text]);
    const records = new Records({ store, signer, archive, backup, table: 'Table 1', now, save }, () => undefined);
    await records.refresh();
    return { records, saved, store, archive };
  };
  const given = (name: string, bytes: Uint8Array, size = bytes.length) => ({
    name,
    size,
    arrayBuffer: () => Promise.resolve(Uint8Array.from(bytes).buffer),
  });

  it('exports, and what it exported is sound', async () => {
    const { records, saved } = await page({ pick: null });
    await records.exportAll();
    expect(records.current().outcome?.tone).toBe('good');
    const [[name, text] = ['', '']] = saved;
    expect(name).toBe('stowcall-2026-11-25.jsonl');
    await records.verify(given(name, new TextEncoder().encode(text)));
    expect(records.current().outcome).toMatchObject({ tone: 'good', heading: `${name} is sound` });
    expect(records.current().outcome?.lines.join()).toContain(
      'signed by this kiosk: its own key verified the last checkpoint',
    );
  });

  it('names what was altered in a file, and counts what it does not name', async () => {
    const { records } = await page({ pick: null });
    await records.verify(given('bad.jsonl', read('tampered-05-moved.jsonl')));
    const { outcome } = records.current();
    expect(outcome).toMatchObject({ tone: 'bad', heading: 'bad.jsonl is not sound' });
    expect(outcome?.lines).toHaveLength(9);
    expect(outcome?.lines.at(-1)).toMatch(/^And \d+ more findings\.$/);
  });

  it('does not read a file that no kiosk can have written', async () => {
    const { records } = await page({ pick: null });
    await records.verify(given('huge.jsonl', new Uint8Array(1), 2_000_000_000));
    expect(records.current().outcome).toMatchObject({ tone: 'bad', heading: 'Not checked' });
    await records.restore(given('huge.jsonl', new Uint8Array(1), 2_000_000_000));
    expect(records.current().outcome).toMatchObject({ tone: 'bad', heading: 'Not restored' });
  });

  it('offers restoring while there are no records, and no longer afterwards', async () => {
    const { records, archive } = await page({ pick: null });
    expect(records.current().empty).toBe(true);
    await records.restore(given('sound.jsonl', read('sound.jsonl')));
    expect(records.current()).toMatchObject({
      empty: true,
      restoring: { prompt: expect.stringMatching(/^Scan the badge of a lead to restore \d+ facts\.$/) },
    });
    records.restoring.cancel();
    unwrap(await restoreAt(archive, read('sound.jsonl')));
    await records.refresh();
    expect(records.current()).toMatchObject({ empty: false, restoring: null });
    await records.restore(given('sound.jsonl', read('sound.jsonl')));
    expect(records.current()).toMatchObject({ outcome: { tone: 'bad', heading: 'Nothing was restored' } });
  });

  it('copies the journal to the chosen folder after each signed record, and says when it cannot', async () => {
    const { folder, files, unplug } = folderOf('STICK');
    const { records, store } = await page({ pick: () => Promise.resolve(folder) });
    expect(records.current()).toMatchObject({ backup: 'No folder for copies is chosen.', canChooseFolder: true });
    await records.chooseFolder();
    expect(records.current()).toMatchObject({
      outcome: { tone: 'good', lines: [expect.stringMatching(/^STICK\/stowcall-table-1-[0-9a-f]{8}-0\.jsonl$/)] },
    });
    const sign = async (): Promise<void> => {
      const drafts = [draftOf('pack-1', SAMPLE_BODIES.signed)];
      const { facts } = unwrap(await store.append(unwrap(await store.head()), drafts));
      expect((await records.sealed(facts[0]!)).state).toBe('made');
      await records.refresh();
    };
    await sign();
    const [copied = ''] = [...files.keys()].filter((file) => file.endsWith('-1.jsonl'));
    const copy = files.get(copied) ?? '';
    expect(unwrap(parseExportText(copy)).head.size).toBe(1);
    expect(records.current().backup).toContain('Last copy at 2026-11-25 14:03.');
    unplug();
    await sign();
    expect(records.current().backup).toMatch(/could not be written to STICK/);
    expect(records.trouble()).toMatch(/could not be written to STICK/);
    // The last good copy is still there.
    expect(files.get(copied)).toBe(copy);
  });

  it('never writes beside a copy that holds more, and an empty kiosk is told to restore from it', async () => {
    const { folder, files } = folderOf('STICK');
    const listed = {
      ...folder,
      keys: () =>
        (async function* () {
          yield* files.keys();
        })(),
    };
    const { records, store } = await page({ pick: () => Promise.resolve(listed) });
    const key = records.current().key?.split('+')[1] ?? '';
    files.set(`stowcall-table-1-${key}-900.jsonl`, 'more');
    await records.chooseFolder();
    expect(records.current().outcome).toMatchObject({ tone: 'bad', heading: expect.stringContaining('empty') });
    expect(records.current().outcome?.lines.join()).toMatch(/Restore from a file/);
    unwrap(await store.append(unwrap(await store.head()), [countDraft('pack-1', 1)]));
    await records.chooseFolder();
    expect(records.current().outcome?.lines.join()).toMatch(/-900\.jsonl in that folder holds more than this journal/);
    expect([...files.values()]).toEqual(['more']);
  });

  it('a folder that the browser no longer allows is said', async () => {
    const { folder, files } = folderOf('STICK');
    const denied = { ...folder, queryPermission: async () => 'prompt', requestPermission: async () => 'denied' };
    const { records } = await page({ pick: () => Promise.resolve(denied) });
    await records.chooseFolder();
    expect(records.current().outcome).toMatchObject({ tone: 'bad', heading: 'No copy was made' });
    expect(files.size).toBe(0);
  });

  it('where the browser knows no folders, a copy goes to the downloads', async () => {
    const { records, saved, store } = await page({ pick: null });
    const drafts = [draftOf('pack-1', SAMPLE_BODIES.signed)];
    const { facts } = unwrap(await store.append(unwrap(await store.head()), drafts));
    await records.sealed(facts[0]!);
    expect(saved.map(([name]) => name)).toEqual([expect.stringMatching(/^stowcall-table-1-[0-9a-f]{8}-1\.jsonl$/)]);
    expect(records.current().backup).toMatch(/downloads.*Last copy at/);
    expect(records.trouble()).toBeNull();
  });

  it('a dialogue that was closed changes nothing', async () => {
    const { records } = await page({ pick: () => Promise.reject(new DOMException('closed', 'AbortError')) });
    await records.chooseFolder();
    expect(records.current().outcome?.heading).toBe('No folder was chosen');
  });

  it('tells a genuine card from another', async () => {
    const { records, archive } = await page({ pick: null });
    unwrap(await restoreAt(archive, read('sound.jsonl')));
    const text = new TextDecoder().decode(read('card.txt')).trim();
    await records.card(text);
    expect(records.current().outcome?.lines.join()).toMatch(/whose it is is not known here/);
    await records.card(text.replace('F', 'G'));
    expect(records.current().outcome?.heading).toBe('This card is not genuine');
  });
});

describe('room', () => {
  it.each([
    ['plenty', 1e9, 10e9, false],
    ['half full', 5e9, 10e9, true],
    ['little left of little', 100e6, 300e6, true],
    ['unknown', null, 0, false],
  ])('%s', (...[, used, quota, warned]) => {
    const room = used === null ? null : { usedBytes: used, quotaBytes: quota };
    expect(roomWarning(room) !== null).toBe(warned);
  });
  it('is told in megabytes', () => expect(megabytes(1_234_400_000)).toBe('1,234 MB'));
});
