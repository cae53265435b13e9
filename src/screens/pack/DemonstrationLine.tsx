/** The line that stays on every screen of a pack or rehearsal whose procedure is only for demonstration. */
import type { ReactElement } from 'react';
import { CautionMark } from '../parts/Shapes';

interface DemonstrationLineProps {
  readonly text: string;
}

export function DemonstrationLine({ text }: DemonstrationLineProps): ReactElement {
  return (
    <p className="banner-demonstration">
      <CautionMark /> {text}
    </p>
  );
}
