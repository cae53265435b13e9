/** Taking a tag off: who may not, what is not taken, and what is stored. */
import { describe, expect, it } from 'vitest';
import type { Command } from '../../../src/domain/command';
import type { OpenTag } from '../../../src/domain/component/component-book';
import { addDays } from '../../../src/domain/plain-date';
import type { Sighting } from '../../../src/domain/sighting';
import {
  tagBadge,
  tagCommand,
  tagLegal,
  tagStored,
  TAGS_BEGIN,
  type TagPlace,
  type TagState,
} from '../../../src/packing/tags/tag-work';
import { tagsView } from '../../../src/packing/tags/tags-view';
import { textDigest } from '../../../src/record/chain/text-digest';
import { LOFT } from '../fixture';

const TAG: OpenTag = {
  seq: 7,
  pack: 'p1',
  component: 'canopy',
  serial: 'P1-CANOPY',
  assembly: 'P1',
  cause: 'damage',
  reason: 'Stopped by Ada at stage 4.',
  at: '2026-11-24T10:00:00.000Z',
  by: 'ada',
  packers: ['ada', 'ron'],
};
const place: TagPlace = { loft: LOFT, book: { packings: new Map(), tags: [TAG] }, latestDay: null };
const at = (seconds: number): string => new Date(Date.parse('2026-11-25T09:00:00Z') + seconds * 1_000).toISOString();

const badge = (id: string, seconds: number): Sighting => ({
  id: `g-${id}`,
  at: at(seconds),
  reader: 'camera',
  payloadDigest: 'x',
  meaning: { kind: 'badge', badgeDigest: textDigest(`B-${id}`) },
});
const tell = (state: TagState, command: Command, seconds = 0) =>
  tagCommand(state, place, { command, channel: 'voice', at: at(seconds) });

function atBadge(): TagState {
  const chosen = tell(TAGS_BEGIN, { name: 'finding', number: 1 }).state;
  return tell(chosen, { name: 'finding', number: 2 }, 1).state;
}

describe('a tag is taken off', () => {
  it('by an inspector, with what was found, after a read-back', () => {
    const read = tagBadge(atBadge(), place, badge('ines', 2)).state;
    expect(tagsView(read, place).prompt.show).toBe(
      'Ines takes the tag off Canopy, serial P1-CANOPY: Repaired, and inspected after the repair. Is that right?',
    );
    const { store, state } = tell(read, { name: 'affirm' }, 3);
    expect(store).toEqual({
      by: 'ines',
      body: {
        kind: 'tagCleared',
        tag: 7,
        component: 'canopy',
        serial: 'P1-CANOPY',
        inspector: 'ines',
        sighting: 'g-ines',
        finding: 'Repaired, and inspected after the repair',
        channel: 'voice',
      },
    });
    expect(tagLegal(state, place)).toEqual([]);
    expect(tagStored(state, null).state.notice?.text).toContain('The tag is off');
    expect(tagStored(state, 'The storage is full.').state.notice?.text).toContain('the tag stays');
  });

  it.each([
    ['ada', 'packed when it was tagged'],
    ['ron', 'packed when it was tagged'],
    ['ben', 'not an inspector'],
    ['otto', 'ended on'],
    ['rhea', 'revoked'],
    ['ulla', 'not qualified for model'],
    ['nobody', 'does not know this badge'],
  ])('not by %s', (id, why) => {
    const { state, store } = tagBadge(atBadge(), place, badge(id, 2));
    expect(state.step.at).toBe('badge');
    expect(state.notice?.text).toContain(why);
    expect(store).toBeNull();
  });

  it('not by somebody whose time ended on a day that the journal has seen, though the clock says an earlier one', () => {
    const [first] = LOFT.people.filter(({ id }) => id === 'ines');
    const later: TagPlace = { ...place, latestDay: addDays(first?.validTo ?? '', 1) };
    const { state, store } = tagBadge(atBadge(), later, badge('ines', 2));
    expect(state.step.at).toBe('badge');
    expect(state.notice?.text).toContain('ended on');
    expect(store).toBeNull();
  });

  it('not when the files have revoked the inspector between the badge and the answer', () => {
    const read = tagBadge(atBadge(), place, badge('ines', 2)).state;
    const people = LOFT.people.map((one) => (one.id === 'ines' ? { ...one, revoked: true } : one));
    const now: TagPlace = { ...place, loft: { ...LOFT, people } };
    const { state, store } = tagCommand(read, now, { command: { name: 'affirm' }, channel: 'voice', at: at(3) });
    expect(state.step.at).toBe('badge');
    expect(state.notice?.text).toContain('revoked');
    expect(store).toBeNull();
  });

  it('not by a badge from before the choice, nor where no badge is wanted', () => {
    expect(tagBadge(atBadge(), place, badge('ines', 0)).state.step.at).toBe('badge');
    expect(tagBadge(TAGS_BEGIN, place, badge('ines', 2)).state.step.at).toBe('list');
  });

  it('not when the time after the badge has run out, or the clock went back', () => {
    const read = tagBadge(atBadge(), place, badge('ines', 2)).state;
    for (const seconds of [2 + LOFT.settings.verdictSeconds, -5]) {
      const { state, store } = tell(read, { name: 'affirm' }, seconds);
      expect(state.step.at).toBe('badge');
      expect(store).toBeNull();
    }
  });

  it('not twice', () => {
    const read = tagBadge(atBadge(), place, badge('ines', 2)).state;
    const off = { ...place, book: { packings: new Map(), tags: [] } };
    const { state, store } = tagCommand(read, off, { command: { name: 'affirm' }, channel: 'voice', at: at(3) });
    expect(state.notice?.text).toBe('This tag is off already.');
    expect(store).toBeNull();
  });

  it('not after "negative", and a number that the list does not have chooses nothing', () => {
    const read = tagBadge(atBadge(), place, badge('ines', 2)).state;
    expect(tell(read, { name: 'negative' }, 3).state.step.at).toBe('list');
    expect(tell(TAGS_BEGIN, { name: 'finding', number: 2 }).state.step.at).toBe('list');
    expect(tell(TAGS_BEGIN, { name: 'affirm' }).store).toBeNull();
  });
});
