/** How far the pack has come, drawn as a row of stitches: sewn, under the needle, still to come. */
import type { ReactElement } from 'react';

interface StitchesProps {
  readonly done: number;
  readonly of: number;
}

const PITCH = 10;

/** The row with its words beside it. */
export function Stitches({ done, of }: StitchesProps): ReactElement {
  const stitches = Array.from({ length: of }, (_, index) => {
    const x = index * PITCH + 1;
    if (index < done) return <rect key={index} className="stitch-done" x={x} y="3" width="8" height="10" rx="1.5" />;
    if (index === done)
      return <rect key={index} className="stitch-now" x={x + 1} y="1" width="6" height="14" rx="1.5" />;
    return <rect key={index} className="stitch-todo" x={x} y="7" width="8" height="2" />;
  });
  return (
    <div className="stitches">
      <svg viewBox={`0 0 ${String(of * PITCH)} 16`} aria-hidden="true" focusable="false" preserveAspectRatio="none">
        {stitches}
      </svg>
      <span className="stitches-words">
        {done} of {of} stages done
      </span>
    </div>
  );
}
