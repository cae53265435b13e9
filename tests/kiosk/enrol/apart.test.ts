/** A voice is in no export and no copy: what the kiosk gives away is the same, byte for byte, with and without one. */
import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { voiceOwner } from '../../../src/kiosk/enrol/owner';
import { createArchive } from '../../../src/kiosk/record/archive';
import { createCheckpointSigner } from '../../../src/record/seal/checkpoint-signer';
import { createStore } from '../../../src/record/store/store';
import { createVoiceSampleStore } from '../../../src/voice/sample-store/sample-store';
import { fakeSample } from '../../fakes/ear';

const HAZEL = voiceOwner({ id: 'hazel-orrin' });

async function unwrap<T>(result: Promise<{ ok: true; value: T } | { ok: false; detail: string }>): Promise<T> {
  const settled = await result;
  if (!settled.ok) throw new Error(settled.detail);
  return settled.value;
}

describe('a voice in the sample store', () => {
  it('changes nothing of the journal, its export or its databases', async () => {
    const store = createStore({ name: 'journal-apart' });
    const head = await unwrap(store.open());
    const body = { kind: 'stoodBy' } as const;
    await unwrap(store.append(head, [{ pack: 'p', at: '2026-11-26T09:00:00Z', by: 'hazel-orrin', body }]));
    const archive = createArchive(store, createCheckpointSigner({ name: 'seals-apart', keyName: 'stowcall/a/b/c' }));
    const before = await unwrap(archive.exportText(null));
    const databases = (await indexedDB.databases()).map(({ name }) => name);

    const sampleStore = createVoiceSampleStore({ name: 'voices-apart' });
    await unwrap(sampleStore.keep(HAZEL, [fakeSample('stop and tag'), fakeSample('affirm')]));
    expect(await unwrap(archive.exportText(null))).toBe(before);
    expect(before).not.toContain(HAZEL);

    await unwrap(sampleStore.erase(HAZEL));
    expect(await unwrap(archive.exportText(null))).toBe(before);
    expect((await indexedDB.databases()).map(({ name }) => name)).toEqual([...databases, 'voices-apart']);
  });

  it('a journal can be restored beside it, as into an empty kiosk', async () => {
    const first = createStore({ name: 'journal-first' });
    const head = await unwrap(first.open());
    await unwrap(
      first.append(head, [{ pack: 'p', at: '2026-11-26T09:00:00Z', by: null, body: { kind: 'restarted' } }]),
    );
    const file = await unwrap(first.export(null));
    const sampleStore = createVoiceSampleStore({ name: 'voices-beside' });
    await unwrap(sampleStore.keep(HAZEL, [fakeSample('affirm')]));
    const second = createStore({ name: 'journal-second' });
    await unwrap(second.open());
    expect((await unwrap(second.restore(file, []))).root).toBe(file.head.root);
    expect((await unwrap(sampleStore.find(HAZEL))).samples).toHaveLength(1);
  });
});
