/** The words of caution: what always applies, and what applies to a procedure that is only for demonstration. */
import type { Loft } from '../../domain/loft';
import type { Procedure } from '../../domain/procedure';
import type { Words } from './words';
import { plain } from './words';

/** On every record. */
const ASSISTS_NOTICE =
  'Local rules and the judgement of licensed riggers and inspectors come first; the kiosk assists and does not certify.';

const DEMONSTRATION_NOTICE =
  'For demonstration only: this procedure is invented and must not be used to pack a parachute. A loft writes its own ' +
  'from the current instructions of the manufacturer.';

/** Short enough to stand on every screen, and to be said. */
const DEMONSTRATION_LINE = 'For demonstration only. This procedure must not be used to pack a parachute.';

/** Whether the file of this procedure says that nobody may pack by it; a file that is silent does not. */
export function isDemonstration(procedure: Procedure | null): boolean {
  return procedure?.demonstration === true;
}

/** Whether any procedure of the loft is only for demonstration. */
export function hasDemonstration(loft: Loft): boolean {
  return loft.procedures.some(isDemonstration);
}

/** What a record by this procedure says of itself. */
export function recordNotice(procedure: Procedure): string {
  return isDemonstration(procedure) ? `${DEMONSTRATION_NOTICE} ${ASSISTS_NOTICE}` : ASSISTS_NOTICE;
}

/** For the screens of a pack and of a rehearsal; null where there is nothing to say. */
export function demonstrationLine(procedure: Procedure | null): string | null {
  return isDemonstration(procedure) ? DEMONSTRATION_LINE : null;
}

/** Said once, at the start; nothing for a procedure that is not for demonstration. */
export function demonstrationWords(procedure: Procedure | null): Words {
  return plain(demonstrationLine(procedure) ?? '');
}
