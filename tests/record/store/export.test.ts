import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { makeExportText, parseExportText } from '../../../src/record/chain/export-file';
import type { FactRow } from '../../../src/record/store/rows';
import { exportOf } from '../../fakes/ledger-export';
import { countDraft } from '../../fakes/ledger-facts';
import { filled, opened, tamper, tamperRow, unwrap } from './raw-journal';

const drafts = (facts: number) => Array.from({ length: facts }, (_, i) => countDraft(`pack-${Math.floor(i / 10)}`, i));

describe('the export of a stored journal', () => {
  it.each([0, 1, 34, 1_234])('of %i facts is what its drafts make', async (facts) => {
    const store = await opened(await filled(facts));
    expect(unwrap(await store.export(null))).toEqual(exportOf(drafts(facts), null));
    store.close();
  });

  it('of one pack carries the proof of each fact', async () => {
    const store = await opened(await filled(34));
    const file = unwrap(await store.export('pack-2'));
    expect(file).toEqual(exportOf(drafts(34), 'pack-2'));
    expect(parseExportText(makeExportText(file))).toEqual({ ok: true, value: file });
    expect(unwrap(await store.export('pack-none')).facts).toEqual([]);
  });

  it('of a damaged journal is refused and names the fact; the packs beside it can still be had', async () => {
    const name = await filled(34);
    await tamperRow<FactRow>(name, 12, (row) => ({ ...row, bytes: row.bytes.with(5, 0) }));
    const store = await opened(name);
    const named = { ok: false, reason: 'corrupt', detail: expect.stringContaining('Fact 12 ') as string };
    expect(await store.export(null)).toMatchObject(named);
    expect(await store.export('pack-1')).toMatchObject(named);
    expect(unwrap(await store.export('pack-2')).facts.length).toBe(10);
  });

  it('of a journal in which a fact is missing, or whose tree is, is refused', async () => {
    const name = await filled(34);
    await tamper(name, (db) => db.delete('facts', 12));
    expect(await (await opened(name)).export(null)).toMatchObject({ ok: false, reason: 'corrupt' });
    const other = await filled(34);
    await tamper(other, (db) => db.clear('nodes'));
    expect(await (await opened(other)).export('pack-0')).toMatchObject({ ok: false, reason: 'corrupt' });
  });
});
