/** How far the pack has come, one segment for each stage: done, being done, still to come. */
import type { ReactElement } from 'react';

interface ProgressBarProps {
  readonly done: number;
  readonly of: number;
}

const PITCH = 10;

/** The row with its words beside it. */
export function ProgressBar({ done, of }: ProgressBarProps): ReactElement {
  const segments = Array.from({ length: of }, (_, index) => {
    const x = index * PITCH + 1;
    if (index < done)
      return <rect key={index} className="progress-bar-done" x={x} y="3" width="8" height="10" rx="1.5" />;
    if (index === done)
      return <rect key={index} className="progress-bar-now" x={x + 1} y="1" width="6" height="14" rx="1.5" />;
    return <rect key={index} className="progress-bar-todo" x={x} y="7" width="8" height="2" />;
  });
  return (
    <div className="progress-bar">
      <svg viewBox={`0 0 ${String(of * PITCH)} 16`} aria-hidden="true" focusable="false" preserveAspectRatio="none">
        {segments}
      </svg>
      <span className="progress-bar-words">
        {done} of {of} stages done
      </span>
    </div>
  );
}
