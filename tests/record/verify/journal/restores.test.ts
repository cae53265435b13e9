/** What the verifier makes of a journal that was put back from a copy: who did it, of what, and behind which seal. */
import { describe, expect, it } from 'vitest';
import type { Fact, FactBody } from '../../../../src/domain/fact';
import { parseExportText } from '../../../../src/record/chain/export-file';
import { byLead } from '../../../fakes/restoring';
import { STORY, verdictOf } from '../remade-story';

type Restored = Extract<FactBody, { kind: 'restored' }>;

const file = parseExportText(STORY);
if (!file.ok) throw new Error(file.detail);
const { head } = file.value;
const LEAD = byLead();

/** The story, restored at its end. */
function restored(change: Partial<Restored> = {}, whole: Partial<Fact> = {}, people = LEAD.people): readonly Fact[] {
  const body: Restored = { kind: 'restored', by: LEAD.by, sighting: LEAD.sighting, ...head, ...change };
  const facts = file.ok ? file.value.facts.map(({ fact }) => fact) : [];
  const { at } = LEAD;
  return [
    ...facts,
    { pack: 'loft', at, by: LEAD.by, seq: head.size, body, ...whole },
    { pack: 'loft', at, by: null, seq: head.size + 1, body: people },
  ];
}

const personed = (differing: object): typeof LEAD.people => ({
  ...LEAD.people,
  people: LEAD.people.people.map((one) => (one.id === LEAD.by ? { ...one, ...differing } : one)),
});
/** The restoring dated otherwise. */
const dated = (facts: readonly Fact[], at: string): readonly Fact[] =>
  facts.map((fact) => (fact.seq < head.size ? fact : { ...fact, at }));
const used = (): string => {
  for (const { fact } of file.ok ? file.value.facts : [])
    if ('sighting' in fact.body && fact.body.sighting !== undefined) return fact.body.sighting;
  throw new Error('the story has scans');
};

describe('a journal that was restored', () => {
  it('is sound, and says so by itself', async () => {
    const verdict = await verdictOf(() => restored());
    expect(verdict.findings).toEqual([]);
    expect(verdict.restores).toEqual([{ seq: head.size, by: LEAD.by, size: head.size, behind: null }]);
  });

  it('by the clock of another computer, which may be behind, is sound', async () => {
    expect((await verdictOf(() => dated(restored(), '2026-11-20T09:00:00.000Z'))).findings).toEqual([]);
  });

  it('from an older copy says behind what it lies, which is no finding', async () => {
    const behind = { size: head.size + 7, root: 'ab'.repeat(32) };
    const verdict = await verdictOf(() => restored({ behind }));
    expect(verdict.findings).toEqual([]);
    expect(verdict.restores).toMatchObject([{ behind }]);
  });

  it.each<[string, readonly Fact[], string, RegExp]>([
    ['another size', restored({ size: head.size - 1 }), 'restore', /facts were put back, and \d+ stand before it/],
    ['another root', restored({ root: '0f'.repeat(32) }), 'restore', /states another root/],
    ['a seal that it does not lie behind', restored({ behind: head }), 'restore', /does not lie behind/],
    ['a scan that had been used', restored({ sighting: used() }), 'restore', /used already/],
    ['somebody else’s act', restored({}, { by: 'hazel-orrin' }), 'who', /not the own act/],
    ['a rigger', restored({ by: 'hazel-orrin' }, { by: 'hazel-orrin' }), 'who', /is no lead/],
    ['nobody', restored({ by: 'nobody' }, { by: 'nobody' }), 'who', /is not in the people file/],
    ['a lead who was revoked', restored({}, {}, personed({ revoked: true })), 'who', /is revoked/],
    ['a lead who was expired', restored({}, {}, personed({ validTo: '2026-11-25' })), 'who', /is expired/],
    [
      'a lead who had expired by the latest day of the copy, by a clock that was set back',
      dated(restored({}, {}, personed({ validTo: '2026-11-23' })), '2026-11-20T09:00:00.000Z'),
      'who',
      /is expired/,
    ],
    ['no people file behind it', restored().slice(0, -1), 'who', /people file is missing/],
    ['a pack around it', restored({}, { pack: 'pack-0003' }), 'foreign', /in the middle of a pack/],
  ])('with %s is found', async (...[, facts, what, why]) => {
    const { findings } = await verdictOf(() => facts);
    expect(findings.filter((one) => one.what === what).map(({ detail }) => detail)).toContainEqual(
      expect.stringMatching(why),
    );
  });
});
