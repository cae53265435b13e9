/** Whether a PIN must be asked for before a badge is handed to the pack. */
import type { Person } from '../../domain/person';
import { personOfBadge } from '../../domain/person';
import { decide } from '../machine/decide';
import type { Sighted } from '../machine/event';
import type { PackSnapshot } from '../machine/machine';
import { phaseOf } from '../machine/machine';

/**
 * Whose PIN must be asked for before this event is handed to the pack; null where a PIN would change nothing: it is
 * asked exactly where the pack would turn the badge away for want of it. Where none is asked for, the pack takes the same
 * event by the decision that was made here.
 */
export function pinAskedOf(snapshot: PackSnapshot, event: Sighted): Person | null {
  const { context } = snapshot;
  const { meaning } = event.sighting;
  if (context.pending !== null || meaning.kind !== 'badge') return null;
  const decision = decide(phaseOf(snapshot), context, event);
  const isWantingPin = (decision?.patch.pending?.drafts ?? []).some(
    ({ body }) => body.kind === 'scanRefused' && body.reason === 'pin-needed',
  );
  return isWantingPin ? personOfBadge(context.loft.people, meaning.badgeDigest) : null;
}
