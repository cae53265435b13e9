/** Whether a PIN must be asked for before a badge is handed to the pack. */
import type { Instant } from '../../domain/instant';
import type { Person } from '../../domain/person';
import { personOfBadge } from '../../domain/person';
import type { Sighting } from '../../domain/sighting';
import { decide } from '../machine/decide';
import type { PackSnapshot } from '../machine/machine';
import { phaseOf } from '../machine/machine';

/**
 * Whose PIN must be asked for before this sighting is handed to the pack; null where a PIN would change nothing: it
 * is asked exactly where the pack would turn the badge away for want of it.
 */
export function pinAskedOf(snapshot: PackSnapshot, sighting: Sighting, at: Instant): Person | null {
  const { context } = snapshot;
  if (context.pending !== null || sighting.meaning.kind !== 'badge') return null;
  const decision = decide(phaseOf(snapshot), context, { type: 'SIGHTED', sighting, at });
  const isWantingPin = (decision?.patch.pending?.drafts ?? []).some(
    ({ body }) => body.kind === 'scanRefused' && body.reason === 'pin-needed',
  );
  return isWantingPin ? personOfBadge(context.loft.people, sighting.meaning.badgeDigest) : null;
}
