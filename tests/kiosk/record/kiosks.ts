/** Kiosks with a store and seals on IndexedDB in memory, and folders for their copies. */
import 'fake-indexeddb/auto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createArchive, type Archive } from '../../../src/kiosk/record/archive';
import type { Folder } from '../../../src/kiosk/record/backup';
import { createCheckpointSigner } from '../../../src/record/seal/checkpoint-signer';
import { createStore, type Store } from '../../../src/record/store/store';
import { countDraft } from '../../fakes/ledger-facts';

const DEMO = join(import.meta.dirname, '../../../demo-data/exports');
export const read = (file: string): Uint8Array => new Uint8Array(readFileSync(join(DEMO, file)));
let kiosks = 0;

export interface Kiosk {
  readonly store: Store;
  readonly archive: Archive;
  readonly name: string;
}

export async function kiosk(name = `kiosk-${(kiosks += 1)}`): Promise<Kiosk> {
  const store = createStore({ name });
  await store.open();
  return {
    store,
    archive: createArchive(store, createCheckpointSigner({ name: `${name}-seals`, keyName: 'x/y' })),
    name,
  };
}

/** Another journal beside the seals of this kiosk, as after an old disk image was put back. */
export async function rolledBack(name: string, facts = 1): Promise<Kiosk> {
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

export function unwrap<T>(result: { ok: true; value: T } | { ok: false; reason: string; detail: string }): T {
  if (!result.ok) throw new Error(`${result.reason}: ${result.detail}`);
  return result.value;
}

/** A folder in memory that can be unplugged. */
export function folderOf(name: string): { folder: Folder; files: Map<string, string>; unplug: () => void } {
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
