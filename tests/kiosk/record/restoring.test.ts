/** Restoring on the records page: whose badge may, what is said of older copies, and what a rolled back journal is called. */
import 'fake-indexeddb/auto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { FactBody, FactDraft } from '../../../src/domain/fact';
import type { Loft } from '../../../src/domain/loft';
import type { Sighting } from '../../../src/domain/sighting';
import { createArchive } from '../../../src/kiosk/record/archive';
import { createBackup, type Folder } from '../../../src/kiosk/record/backup';
import { Records } from '../../../src/kiosk/record/records';
import type { GivenFile } from '../../../src/screens/contract/records-view';
import { parseExportText } from '../../../src/record/chain/export-file';
import { textDigest } from '../../../src/record/chain/text-digest';
import { createCheckpointSigner } from '../../../src/record/seal/checkpoint-signer';
import { createStore, type Store } from '../../../src/record/store/store';
import { keyPairFrom } from '../../../src/tools/exports/demo-key';
import { remakeText } from '../../../src/tools/exports/remake';
import { demoLoft } from '../../e2e/support/demo-loft';
import { draftOf, SAMPLE_BODIES } from '../../fakes/ledger-facts';

const SOUND = new Uint8Array(readFileSync(join(import.meta.dirname, '../../../demo-data/exports/sound.jsonl')));
let kiosks = 0;

function unwrap<T>(result: { ok: true; value: T } | { ok: false; reason: string; detail: string }): T {
  if (!result.ok) throw new Error(`${result.reason}: ${result.detail}`);
  return result.value;
}

const given = (bytes: Uint8Array, name = 'copy.jsonl'): GivenFile => ({
  name,
  size: bytes.length,
  arrayBuffer: () => Promise.resolve(Uint8Array.from(bytes).buffer),
});

/** A folder in memory that can be looked at, read and tidied. */
function folderOf(files: Map<string, string>): Folder {
  return {
    name: 'STICK',
    keys: () =>
      (async function* () {
        yield* files.keys();
      })(),
    removeEntry: async (file) => void files.delete(file),
    getFileHandle: async (file) => ({
      getFile: async () => given(new TextEncoder().encode(files.get(file) ?? ''), file),
      createWritable: async () => {
        let text = '';
        return {
          write: async (more) => void (text += more),
          close: async () => void files.set(file, text),
          abort: async () => undefined,
        };
      },
    }),
  };
}

interface Page {
  readonly records: Records;
  readonly store: Store;
  readonly files: Map<string, string>;
  /** Scans this person's badge now, or as long ago as is said. */
  badge(person: string, ageMs?: number): Promise<void>;
  settle(): Promise<void>;
}

async function page(options: { loft?: Loft; seals?: string; pinFits?: boolean; at?: string } = {}): Promise<Page> {
  const name = `restoring-${(kiosks += 1)}`;
  const store = createStore({ name });
  unwrap(await store.open());
  const signer = createCheckpointSigner({ name: options.seals ?? `${name}-seals`, keyName: 'x/y' });
  const files = new Map<string, string>();
  let chosen: Folder | null = null;
  const memory = { get: async () => chosen, set: async (folder: Folder) => void (chosen = folder) };
  let ms = Date.parse(options.at ?? '2026-11-25T13:00:00.000Z');
  const now = (): string => new Date((ms += 1_000)).toISOString();
  const backup = createBackup(memory, { pick: () => Promise.resolve(folderOf(files)) });
  const archive = createArchive(store, signer);
  const save = (): void => undefined;
  const pinFits = () => Promise.resolve(options.pinFits ?? false);
  const records = new Records(
    { store, signer, archive, backup, table: 'Table 1', now, save, pinFits },
    () => undefined,
  );
  await records.refresh();
  const settle = async (): Promise<void> => {
    for (let turn = 0; turn < 400; turn += 1) await new Promise((done) => setTimeout(done, 1));
  };
  let scans = 0;
  const badge = async (person: string, ageMs = 0): Promise<void> => {
    const at = new Date(Date.parse(now()) - ageMs).toISOString();
    const badgeDigest = textDigest(person);
    const known = demoLoft().people.find(({ id }) => id === person)?.badges[0] ?? badgeDigest;
    const sighting: Sighting = {
      id: `scan-${(scans += 1)}`,
      at,
      reader: 'wedge',
      payloadDigest: badgeDigest,
      meaning: { kind: 'badge', badgeDigest: known },
    };
    records.restoring.sighted(sighting, options.loft ?? demoLoft());
    await settle();
  };
  return { records, store, files, badge, settle };
}

const LEAD = demoLoft().people.find(({ roles }) => roles.includes('lead'))?.id ?? '';
const lineOf = ({ records }: Page): string => records.current().outcome?.lines.join(' ') ?? '';
const restoredIn = async ({ store }: Page): Promise<FactBody | undefined> =>
  unwrap(await store.read('loft')).find(({ body }) => body.kind === 'restored')?.body;

/** The facts of the sound story up to the end of its first pack, and a few of the next. */
const STORY = unwrap(parseExportText(new TextDecoder().decode(SOUND))).facts.map(({ fact }) => fact);
const FIRST = STORY.findIndex(({ pack }) => pack !== STORY[0]?.pack);
const MORE = FIRST + 9;
const drafts = (from: number, to: number): readonly FactDraft[] =>
  STORY.slice(from, to).map(({ pack, at, by, body }) => ({ pack, at, by, body }));

/** A kiosk that has sealed more than its journal now holds, and a sound copy of the first pack alone. */
async function rolledBack(isEmpty: boolean): Promise<{ page: Page; old: Uint8Array }> {
  const full = await page();
  const seals = `restoring-${kiosks}-seals`;
  unwrap(await full.store.append(unwrap(await full.store.head()), drafts(0, FIRST)));
  const signer = createCheckpointSigner({ name: `${seals}-other`, keyName: 'x/y' });
  const old = new TextEncoder().encode(unwrap(await createArchive(full.store, signer).exportText(null)));
  unwrap(await full.store.append(unwrap(await full.store.head()), drafts(FIRST, MORE)));
  await full.records.exportAll();
  const later = await page({ seals });
  if (!isEmpty) unwrap(await later.store.append(unwrap(await later.store.head()), drafts(0, FIRST)));
  await later.records.refresh();
  return { page: later, old };
}

describe('restoring asks for a badge', () => {
  it('of a lead, and is then the first fact behind what was restored', async () => {
    const one = await page();
    await one.records.restore(given(SOUND));
    expect(unwrap(await one.store.head()).size).toBe(0);
    expect(one.records.current().restoring?.prompt).toMatch(/^Scan the badge of a lead to restore \d+ facts\.$/);
    await one.badge(LEAD);
    expect(one.records.current()).toMatchObject({ outcome: { heading: 'Restored' }, restoring: null, empty: false });
    expect(await restoredIn(one)).toMatchObject({ kind: 'restored', by: LEAD });
    await one.records.exportAll();
    expect(one.records.current().outcome?.heading).toBe('Exported');
  });

  it.each<[string, { readonly person: string; readonly age: number }, RegExp]>([
    ['of a rigger', { person: 'hazel-orrin', age: 0 }, /is not a lead/],
    ['of nobody here', { person: 'nobody', age: 0 }, /belongs to nobody in this loft/],
    [
      'that was scanned before the file was checked',
      { person: LEAD, age: 600_000 },
      /scanned before the file was checked/,
    ],
  ])('%s is refused, and nothing is restored', async (_, { person, age }, why) => {
    const one = await page();
    await one.records.restore(given(SOUND));
    await one.badge(person, age);
    expect(lineOf(one)).toMatch(why);
    expect(one.records.current().restoring).not.toBeNull();
    expect(unwrap(await one.store.head()).size).toBe(0);
  });

  it.each<[string, { readonly lead: Partial<Loft['people'][number]>; readonly at?: string }, RegExp]>([
    ['revoked', { lead: { revoked: true } }, /is revoked/],
    ['expired', { lead: { validTo: '2026-11-24' } }, /ended on/],
    [
      'expired by the latest day of the copy',
      { lead: { validTo: '2026-11-23' }, at: '2026-11-22T13:00:00.000Z' },
      /ended on/,
    ],
  ])('of a lead who is %s is refused', async (_, { lead: differing, at }, why) => {
    const loft = demoLoft();
    const people = loft.people.map((one) => (one.id === LEAD ? { ...one, ...differing } : one));
    const one = await page({ loft: { ...loft, people }, ...(at === undefined ? {} : { at }) });
    await one.records.restore(given(SOUND));
    await one.badge(LEAD);
    expect(lineOf(one)).toMatch(why);
    expect(unwrap(await one.store.head()).size).toBe(0);
  });

  it.each([true, false])('with the PIN where the loft wants PINs (right: %s)', async (pinFits) => {
    const loft = demoLoft();
    const people = loft.people.map((one) => (one.id === LEAD ? { ...one, pin: 'stored' } : one));
    const one = await page({ loft: { ...loft, people, settings: { ...loft.settings, pin: 'eachHold' } }, pinFits });
    await one.records.restore(given(SOUND));
    await one.badge(LEAD);
    expect(one.records.restoring.pin.view()).not.toBeNull();
    expect(unwrap(await one.store.head()).size).toBe(0);
    await one.records.restoring.pin.enter('123456');
    await one.settle();
    if (pinFits) expect(await restoredIn(one)).toMatchObject({ pin: true });
    else expect(lineOf(one)).toMatch(/PIN is wrong/);
    expect(unwrap(await one.store.head()).size > 0).toBe(pinFits);
  });

  it('and nothing happens once it was let go, or without any file', async () => {
    const one = await page();
    await one.badge(LEAD);
    await one.records.restore(given(SOUND));
    one.records.restoring.cancel();
    await one.badge(LEAD);
    expect(unwrap(await one.store.head()).size).toBe(0);
  });
});

describe('a journal that was rolled back', () => {
  it('is named on the records page and at the start', async () => {
    const { page: one } = await rolledBack(false);
    const why = `sealed ${MORE} facts, and the journal holds only ${FIRST}: the last ${MORE - FIRST} are missing`;
    expect(one.records.current().warning).toContain(why);
    expect(one.records.trouble()).toContain(why);
  });

  it('takes an older copy only when it is asked for once more, and the fact says what it lies behind', async () => {
    const { page: one, old } = await rolledBack(true);
    expect(one.records.trouble()).toContain(`sealed ${MORE} facts, and the journal holds only 0`);
    await one.records.restore(given(old));
    expect(one.records.current().restoring?.behind).toContain(`it holds ${FIRST} facts, and ${MORE} were sealed here`);
    await one.badge(LEAD);
    expect(lineOf(one)).toMatch(/older than what was sealed here/);
    expect(unwrap(await one.store.head()).size).toBe(0);
    one.records.restoring.insist();
    await one.badge(LEAD);
    expect(await restoredIn(one)).toMatchObject({ size: FIRST, behind: { size: MORE } });
    // It goes on from there: the lost part stays named, and is contradicted by nothing that is sealed from now on.
    expect(one.records.trouble()).toBeNull();
    expect(one.records.current().keeping.join()).toContain(`of what was sealed up to fact ${MORE} `);
    await one.records.exportAll();
    expect(one.records.current().outcome?.heading).toBe('Exported');
  });

  it('is not mended by a copy of another journal', async () => {
    const { page: one } = await rolledBack(true);
    // The same pack, and yet not the same bytes: whoever it was that packed, it was at another table.
    const pair = await keyPairFrom('another table');
    const facts = STORY.map((fact) =>
      fact.body.kind === 'packOpened' ? { ...fact, body: { ...fact.body, table: 'Another table' } } : fact,
    );
    const text = await remakeText(facts, { name: 'x/y', pair });
    await one.records.restore(given(new TextEncoder().encode(text)));
    expect(lineOf(one)).toContain(`sealed ${MORE} facts that are others than the first ${MORE} of this file`);
    expect(one.records.current().restoring).toBeNull();
    expect(unwrap(await one.store.head()).size).toBe(0);
  });
});

describe('an empty kiosk with a full folder', () => {
  it('offers to restore the copy that holds most, and does so after a badge', async () => {
    const one = await page();
    one.files.set('stowcall-table-1-0a0b0c0d-3.jsonl', 'less');
    one.files.set('stowcall-table-1-0a0b0c0d-184.jsonl', new TextDecoder().decode(SOUND));
    await one.records.chooseFolder();
    expect(one.records.current()).toMatchObject({ offered: 'stowcall-table-1-0a0b0c0d-184.jsonl', empty: true });
    await one.records.restoreOffered();
    expect(one.records.current().restoring?.prompt).toMatch(/badge of a lead/);
    await one.badge(LEAD);
    expect(one.records.current()).toMatchObject({ offered: null, outcome: { heading: 'Restored' } });
  });
});

describe('older copies are tidied', () => {
  it('down to two beside the newest, and no copy of another table or key is touched', async () => {
    const one = await page();
    const key = one.records.current().key?.split('+')[1] ?? '';
    const foreign = [
      `stowcall-table-2-${key}-1.jsonl`,
      'stowcall-table-1-0a0b0c0d-1.jsonl',
      'stowcall-2025-01.jsonl',
      'notes.txt',
    ];
    for (const name of foreign) one.files.set(name, 'foreign');
    const sign = async (): Promise<void> => {
      unwrap(await one.store.append(unwrap(await one.store.head()), [draftOf('pack-1', SAMPLE_BODIES.signed)]));
    };
    await sign();
    for (let copies = 0; copies < 5; copies += 1) {
      await one.records.chooseFolder();
      await sign();
    }
    const own = [...one.files.keys()].filter((name) => !foreign.includes(name));
    expect(own).toEqual([3, 4, 5].map((size) => `stowcall-table-1-${key}-${String(size)}.jsonl`));
    expect([...one.files.keys()].filter((name) => foreign.includes(name))).toEqual(foreign);
  });
});
