/** A scan where none is wanted. */
import type { Scan } from '../../badge/scan-refused';
import type { Here } from '../../machine/context';
import type { Decision } from '../../machine/decision';
import { refusal, remarkOn } from '../../machine/decision';
import { plain } from '../../words/words';
import { scanWhileReadBack } from '../identify/identify';

/** Labels lie about on the table and are seen all the time; only what must have been meant is answered. */
export function unwanted(here: Here, scan: Scan): Decision | null {
  const { meaning } = scan.sighting;
  if (meaning.kind === 'badge') return remarkOn(here, refusal(plain('Not now: no badge is wanted here.')));
  if (meaning.kind !== 'component' || here.context.readBack?.from !== 'identifying') return null;
  const { onAffirm } = here.context.readBack;
  const asked = onAffirm.kind === 'store' ? onAffirm.bodies[0] : undefined;
  const serial = asked?.kind === 'componentIdentified' ? asked.serial : '';
  const told = scanWhileReadBack(here, scan, serial);
  if (told === 'same') return null;
  return told ?? remarkOn(here, refusal(plain('One at a time: answer first.')));
}
