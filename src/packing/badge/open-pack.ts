/** Who may open a pack from the start screen. */
import type { Instant } from '../../domain/instant';
import { dateOf } from '../../domain/instant';
import type { Loft } from '../../domain/loft';
import type { PackRefusal, Person } from '../../domain/person';
import { personOfBadge } from '../../domain/person';
import type { Result } from '../../domain/result';
import { ok, refused } from '../../domain/result';
import type { Sighting } from '../../domain/sighting';
import { mayPackSomething } from '../steps/stand-by/stand-by';

/** The rigger whose badge was scanned, if there is at least one model that they may pack on this day. */
export function mayOpenPack(
  loft: Loft,
  sighting: Sighting,
  at: Instant,
): Result<Person, PackRefusal | 'not-a-badge' | 'unknown-badge'> {
  const { meaning } = sighting;
  if (meaning.kind === 'refused') return refused('not-a-badge', `${meaning.detail} Scan your badge.`);
  if (meaning.kind !== 'badge') return refused('not-a-badge', 'That is not a badge. Scan your badge first.');
  const person = personOfBadge(loft.people, meaning.badgeDigest);
  if (person === null) return refused('unknown-badge', 'The loft does not know this badge. Ask the lead.');
  const may = mayPackSomething(person, dateOf(at));
  return may.ok ? ok(person) : may;
}
