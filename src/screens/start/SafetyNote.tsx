/** The safety note on the start screen: always who comes first, and what of the loft's files is only invented. */
import type { ReactElement } from 'react';
import { CautionMark } from '../parts/Shapes';

interface SafetyNoteProps {
  /** Whether any procedure of the loft is only for demonstration. */
  readonly demonstration: boolean;
}

export function SafetyNote({ demonstration }: SafetyNoteProps): ReactElement {
  return (
    <section className="safety" aria-label="Safety">
      <CautionMark />
      <p>
        {demonstration ? (
          <>
            <strong>For demonstration only.</strong> The procedures marked so are invented and must not be used to pack
            a parachute. A loft writes its own from the manufacturer&rsquo;s current instructions.{' '}
          </>
        ) : null}
        Local rules and the judgement of licensed riggers and inspectors come first. The kiosk assists; it does not
        certify.
      </p>
    </section>
  );
}
