/** The marks that stand beside words. Each has its own outline, so that none is told by colour alone. */
import type { ReactElement, ReactNode } from 'react';

interface MarkProps {
  readonly className?: string;
  readonly children: ReactNode;
}

function Mark({ className, children }: MarkProps): ReactElement {
  return (
    <svg className={`mark ${className ?? ''}`} viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      {children}
    </svg>
  );
}

const LINE = { fill: 'none', stroke: 'currentColor', strokeWidth: 2.6, strokeLinecap: 'round' } as const;

/** A filled square with a tick: checked and good. */
export function PassMark(): ReactElement {
  return (
    <Mark className="mark-pass">
      <rect x="2" y="2" width="20" height="20" rx="3" fill="currentColor" />
      <path className="mark-inside" d="M6.5 12.5l4 4 7-8.5" fill="none" strokeWidth="3" strokeLinecap="round" />
    </Mark>
  );
}

/** A hang tag with a cross: tagged out, turned away. */
export function TagMark(): ReactElement {
  return (
    <Mark className="mark-tag">
      <path d="M7 2h10l5 6v14H2V8z" fill="currentColor" />
      <path className="mark-inside" d="M8 11l8 8M16 11l-8 8" fill="none" strokeWidth="3" strokeLinecap="round" />
      <circle className="mark-hole" cx="12" cy="6" r="1.7" />
    </Mark>
  );
}

/** A dashed ring: not yet. */
export function PendingMark(): ReactElement {
  return (
    <Mark>
      <circle cx="12" cy="12" r="9" {...LINE} strokeDasharray="4 4.6" />
    </Mark>
  );
}

/** A ring with a dot: being done now. */
export function NowMark(): ReactElement {
  return (
    <Mark>
      <circle cx="12" cy="12" r="9" {...LINE} />
      <circle cx="12" cy="12" r="4.6" fill="currentColor" />
    </Mark>
  );
}

/** A notched wedge with a stroke: caution. */
export function CautionMark(): ReactElement {
  return (
    <Mark className="mark-caution">
      <path d="M12 1.5L23 22H1z" fill="currentColor" />
      <path className="mark-inside" d="M12 9v6.2" strokeWidth="3" strokeLinecap="round" fill="none" />
      <circle className="mark-hole" cx="12" cy="18.6" r="1.5" />
    </Mark>
  );
}

/** Lines of text beside a bar: an answer. */
export function AnswerMark(): ReactElement {
  return (
    <Mark>
      <path d="M3 5v14M8 7h13M8 12h13M8 17h8" {...LINE} />
    </Mark>
  );
}

/** Waves reaching a dot: the ear is open. */
export function EarOpenMark(): ReactElement {
  return (
    <Mark>
      <circle cx="5" cy="12" r="3" fill="currentColor" />
      <path d="M11 7a7 7 0 0 1 0 10M15.5 3.5a12 12 0 0 1 0 17" {...LINE} />
    </Mark>
  );
}

/** A dot behind a wall: the ear is closed. */
export function EarClosedMark(): ReactElement {
  return (
    <Mark>
      <circle cx="5" cy="12" r="3" fill="currentColor" />
      <path d="M12 3v18M17.5 8.5l5 7M22.5 8.5l-5 7" {...LINE} />
    </Mark>
  );
}

/** A dot with waves going out of it: the kiosk speaks. */
export function SpeakingMark(): ReactElement {
  return (
    <Mark>
      <path d="M3 8v8h4l6 5V3L7 8z" fill="currentColor" />
      <path d="M17 8.5a5 5 0 0 1 0 7" {...LINE} />
    </Mark>
  );
}

/** A lens in a frame. */
export function CameraMark(): ReactElement {
  return (
    <Mark>
      <path d="M2 8V3h6M16 3h6v5M22 16v5h-6M8 21H2v-5" {...LINE} />
      <circle cx="12" cy="12" r="4" fill="currentColor" />
    </Mark>
  );
}

/** Two posts and a bar: a hold, nothing passes. */
export function GateMark(): ReactElement {
  return (
    <Mark>
      <path d="M3 2h4v20H3zM17 2h4v20h-4zM7 9.5h10v5H7z" fill="currentColor" />
    </Mark>
  );
}

/** An arrow into, or out of, a tray. */
export function TrayMark({ direction }: { readonly direction: 'in' | 'out' }): ReactElement {
  const arrow = direction === 'in' ? 'M12 2v11M7 8.5l5 5 5-5' : 'M12 14V3M7 7.5l5-5 5 5';
  return (
    <Mark>
      <path d="M2.5 12v9h19v-9" {...LINE} />
      <path d={arrow} {...LINE} />
    </Mark>
  );
}
