/** After how long a break somebody must show again who goes on. */
import type { Instant } from '../../../domain/instant';
import { epochMs } from '../../../domain/instant';
import type { Loft } from '../../../domain/loft';
import { RESUME_BADGE_MINUTES } from '../../../domain/loft';
import type { PackState } from '../../state/pack-state';

/**
 * Whether going on at this moment wants the packer's badge: the last act lies further back than the loft allows, or
 * ahead of the clock, which was then set back, so that nobody can tell.
 */
export function isLongBreak({ settings }: Loft, { lastActAt }: Pick<PackState, 'lastActAt'>, at: Instant): boolean {
  if (lastActAt === null) return false;
  const ms = epochMs(at) - epochMs(lastActAt);
  return !(ms >= 0 && ms <= (settings.resumeBadgeMinutes ?? RESUME_BADGE_MINUTES) * 60_000);
}
