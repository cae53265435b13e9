/** What every badge scan must be, whatever it is for: fresh, unspent, and of somebody whom the loft knows. */
import type { PersonId } from '../../domain/ids';
import { epochMs } from '../../domain/instant';
import type { Person } from '../../domain/person';
import { personOfBadge } from '../../domain/person';
import type { Result } from '../../domain/result';
import { ok, refused } from '../../domain/result';
import type { PackContext } from '../machine/context';
import type { Scan } from './scan-refused';

export type BadgeRefusal = 'replayed' | 'stale' | 'not-a-badge' | 'unknown-badge';

/**
 * The person whose badge was scanned just now. A sighting counts once; one made before the pack came to this step was
 * made for something else, and one that lies ahead of the clock proves nothing.
 */
export function personScanned(context: PackContext, scan: Scan): Result<Person, BadgeRefusal> {
  const { sighting, at } = scan;
  const { meaning } = sighting;
  if (meaning.kind === 'refused') return refused('not-a-badge', `${meaning.detail} Scan a badge.`);
  if (meaning.kind !== 'badge') return refused('not-a-badge', 'That is a label, not a badge. Scan a badge.');
  if (context.seen.includes(sighting.id) || context.state.spent.has(sighting.id)) {
    return refused('replayed', 'That scan has been used already. Scan the badge again.');
  }
  const scannedAt = epochMs(sighting.at);
  if (!(scannedAt >= epochMs(context.freshFrom) && scannedAt <= epochMs(at))) {
    return refused('stale', 'That scan was not made just now. Scan the badge again.');
  }
  const person = personOfBadge(context.loft.people, meaning.badgeDigest);
  return person === null ? refused('unknown-badge', 'The loft does not know this badge. Ask the lead.') : ok(person);
}

/** Id of whoever holds the badge that was scanned, whatever it may do here; null where nobody does, or it is no badge. */
export function holderOf({ loft }: PackContext, { sighting: { meaning } }: Scan): PersonId | null {
  return meaning.kind === 'badge' ? (personOfBadge(loft.people, meaning.badgeDigest)?.id ?? null) : null;
}
