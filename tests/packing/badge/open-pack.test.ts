/** The start screen's badge: who may open a pack. */
import { describe, expect, it } from 'vitest';
import type { SightingMeaning } from '../../../src/domain/sighting';
import { mayOpenPack } from '../../../src/packing/badge/open-pack';
import { textDigest } from '../../../src/record/chain/text-digest';
import { LOFT } from '../fixture';

const AT = '2026-11-25T09:00:00.000Z';
const open = (meaning: SightingMeaning, at = AT) =>
  mayOpenPack(LOFT, { id: 's', at, reader: 'camera', payloadDigest: 'x', meaning }, at);
const badge = (id: string): SightingMeaning => ({ kind: 'badge', badgeDigest: textDigest(id) });

describe('a pack is opened', () => {
  it.each(['B-ada', 'B-ada-2', 'B-ron', 'B-nora', 'B-eric'])('by a rigger in date: %s', (id) => {
    expect(open(badge(id)).ok).toBe(true);
  });

  it.each([
    [badge('B-nobody'), 'unknown-badge', 'The loft does not know this badge. Ask the lead.'],
    [badge('B-ines'), 'not-a-rigger', 'Ines is not a rigger. A qualified rigger must pack.'],
    [badge('B-tess'), 'not-a-rigger', 'Tess is not a rigger. A qualified rigger must pack.'],
    [badge('B-finn'), 'not-yet-valid', 'The qualification of Finn begins on 26 November 2026. Ask the lead.'],
    [{ kind: 'component', serial: 'P1-BAG' }, 'not-a-badge', 'That is not a badge. Scan your badge first.'],
    [{ kind: 'command', command: { name: 'affirm' } }, 'not-a-badge', 'That is not a badge. Scan your badge first.'],
    [
      { kind: 'refused', reason: 'check', detail: 'The label is damaged.' },
      'not-a-badge',
      'The label is damaged. Scan your badge.',
    ],
  ] as const)('not by %j: %s', (meaning, reason, detail) => {
    expect(open(meaning)).toEqual({ ok: false, reason, detail });
  });

  it('not by a rigger on the day after the last one', () => {
    expect(open(badge('B-eric'), '2026-11-26T00:00:00.000Z')).toMatchObject({ ok: false, reason: 'expired' });
  });

  it('not by a rigger of no model', () => {
    const people = LOFT.people.map((one) => (one.id === 'ada' ? { ...one, models: [] } : one));
    const sighting = { id: 's', at: AT, reader: 'camera', payloadDigest: 'x', meaning: badge('B-ada') } as const;
    expect(mayOpenPack({ ...LOFT, people }, sighting, AT)).toMatchObject({ ok: false, reason: 'not-for-model' });
  });
});
