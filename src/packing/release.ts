/** Whether a hold stands open. */
import type { PackState } from './pack-state';

/** A release by somebody who has packed, at whatever time, is none. */
export function isReleased(state: PackState, hold: string): boolean {
  const release = state.releases.get(hold);
  return release !== undefined && !state.packers.includes(release.inspector);
}
