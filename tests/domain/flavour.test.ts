/** Texts that look alike are not mixed: the type check of the tests refuses each of the lines that are marked. */
import { describe, expect, expectTypeOf, it } from 'vitest';
import { componentOfSerial } from '../../src/domain/component/component';
import type { FactDraft } from '../../src/domain/fact';
import type { BadgeDigest, FactSeq, PackId, PersonId, Serial, SightingId } from '../../src/domain/ids';
import type { Instant } from '../../src/domain/instant';
import { dateOf, epochMs } from '../../src/domain/instant';
import type { Loft } from '../../src/domain/loft';
import { personById } from '../../src/domain/loft';
import { personOfBadge } from '../../src/domain/person';
import type { PlainDate } from '../../src/domain/plain-date';
import { compareDates } from '../../src/domain/plain-date';

interface Each {
  readonly instant: Instant;
  readonly date: PlainDate;
  readonly serial: Serial;
  readonly badge: BadgeDigest;
  readonly person: PersonId;
  readonly pack: PackId;
  readonly sighting: SightingId;
}

const EACH: Each = {
  instant: '2026-11-25T09:00:00Z',
  date: '2026-11-25',
  serial: 'P1-BAG',
  badge: 'a1b2',
  person: 'ada',
  pack: 'pack-1',
  sighting: 's1',
};
const NOBODY = { people: [], assemblies: [], procedures: [] } as unknown as Loft;

/** Every pair of two different members that the one is taken for the other; none. */
type Mixed = {
  [A in keyof Each]: { [B in Exclude<keyof Each, A>]: Each[A] extends Each[B] ? [A, B] : never }[Exclude<
    keyof Each,
    A
  >];
}[keyof Each];

describe('two flavours', () => {
  it('are never taken for each other', () => {
    expectTypeOf<Mixed>().toEqualTypeOf<never>();
    expectTypeOf<FactSeq>().not.toExtend<string>();
  });

  it('are refused where a function wants another one', () => {
    // @ts-expect-error A moment is no date.
    expect(() => compareDates(EACH.instant, EACH.date)).toThrow();
    // @ts-expect-error A date is no moment.
    expect(epochMs(EACH.date)).toBe(Date.parse('2026-11-25'));
    // @ts-expect-error A serial is no digest of a badge.
    expect(personOfBadge([], EACH.serial)).toBeNull();
    // @ts-expect-error A digest of a badge is no serial.
    expect(componentOfSerial([], EACH.badge)).toBeNull();
    // @ts-expect-error The id of a pack is none of a person.
    expect(personById(NOBODY, EACH.pack)).toBeNull();
  });

  it('are refused in a fact', () => {
    const { person, pack, sighting, instant } = EACH;
    const sound: FactDraft = { pack, at: instant, by: person, body: { kind: 'resumed', packer: person, sighting } };
    // @ts-expect-error A person and a pack are swapped.
    const swapped: FactDraft = { ...sound, pack: person };
    // @ts-expect-error A person stands where an act of scanning belongs.
    const scanned: FactDraft = { ...sound, body: { kind: 'resumed', packer: person, sighting: person } };
    expect([swapped, scanned]).toHaveLength(2);
  });

  it('take what has none: a literal, or what a schema has checked', () => {
    const text: string = '2026-11-25T09:00:00Z';
    const instant: Instant = text;
    expect(dateOf(instant)).toBe('2026-11-25');
  });
});
