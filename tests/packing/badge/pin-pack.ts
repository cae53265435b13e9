/** A pack at its first hold in a loft that wants PINs. */
import type { PinPolicy } from '../../../src/domain/pin';
import { makeStoredPin, PIN_ITERATIONS } from '../../../src/domain/pin';
import { textDigest } from '../../../src/record/chain/text-digest';
import { reach, step } from '../autopilot';
import { LOFT } from '../fixture';
import { PackDriver, type DriverInput } from '../pack-driver';
export const STORED = makeStoredPin({
  iterations: PIN_ITERATIONS,
  salt: 'AAAAAAAAAAAAAAAAAAAAAA==',
  hash: `${'A'.repeat(43)}=`,
});

export function atHold(
  pin: PinPolicy,
  without: readonly string[] = [],
  after: Pick<DriverInput, 'elsewhere' | 'pack' | 'at'> = {},
): PackDriver {
  const people = LOFT.people.map((person) => (without.includes(person.id) ? person : { ...person, pin: STORED }));
  const pack = new PackDriver({ ...after, loft: { ...LOFT, people, settings: { ...LOFT.settings, pin } } });
  reach(pack, 'hold:layout');
  return pack;
}

export type Given = 'fits' | 'wrong' | null;

export function badge(pack: PackDriver, person: string, pin: Given): void {
  const meaning = { kind: 'badge', badgeDigest: textDigest(`B-${person}`) } as const;
  pack.scan(pin === null ? meaning : { ...meaning, pin }, `B-${person}`);
}

export const reasons = (pack: PackDriver): readonly string[] =>
  pack.facts.flatMap(({ body }) => (body.kind === 'scanRefused' ? [body.reason] : []));

/** Releases the hold that an inspector stands at, and goes on to the next one. */
export function releaseAndGoOn(pack: PackDriver): void {
  pack.command({ name: 'releaseHold' });
  pack.command({ name: 'affirm' });
  while (pack.task.kind !== 'hold' && step(pack));
}
