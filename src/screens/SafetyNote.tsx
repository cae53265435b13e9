/** The safety note: on the start screen always, in full. */
import type { ReactElement } from 'react';
import { CautionMark } from './Shapes';

export function SafetyNote(): ReactElement {
  return (
    <section className="safety" aria-label="Safety">
      <CautionMark />
      <p>
        <strong>For demonstration only.</strong> The procedures shipped here are invented and must not be used to pack a
        parachute. A loft writes its own from the manufacturer&rsquo;s current instructions. Local rules and the
        judgement of licensed riggers and inspectors come first. The kiosk assists; it does not certify.
      </p>
    </section>
  );
}
