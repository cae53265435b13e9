/** The records page over a store in memory: export, check, copies, and how full the storage is. */
import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { createBackup, type BackupHost, type Folder } from '../../../src/kiosk/record/backup';
import { Records } from '../../../src/kiosk/record/records';
import { megabytes, roomWarning } from '../../../src/kiosk/record/storage-room';
import { parseExportText } from '../../../src/record/chain/export-file';
import { createCheckpointSigner } from '../../../src/record/seal/checkpoint-signer';
import { countDraft, draftOf, SAMPLE_BODIES } from '../../fakes/ledger-facts';
import { restoreAt } from '../../fakes/restoring';
import { read, type Kiosk, kiosk, unwrap, folderOf } from './kiosks';

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
