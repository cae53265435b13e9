/** The body of a screen: one column for what is to be done, fitted to be seen whole, and one beside it. */
import type { ReactElement, ReactNode } from 'react';
import { useFit } from './use-fit';
import { Words } from './Words';

interface SheetProps {
  readonly children: ReactNode;
  /** Picture, ledger or pad beside the main column; null or absent for none. */
  readonly side?: ReactNode;
  /** Name of the screen, for its own look. */
  readonly look: string;
}

function SideColumn({ children }: { readonly children: ReactNode }): ReactElement {
  const side = useFit<HTMLDivElement>();
  return (
    <div className="sheet-side" ref={side} role="group" aria-label="Beside it">
      {children}
    </div>
  );
}

/** Lays the two columns out. */
export function Sheet({ children, side = null, look }: SheetProps): ReactElement {
  const main = useFit<HTMLDivElement>();
  const hasSide = side !== null && side !== undefined && side !== false;
  return (
    <div className={`sheet sheet-${look} ${hasSide ? 'sheet-two' : ''}`}>
      <div className="sheet-main" ref={main} role="group" aria-label="What to do now">
        {children}
      </div>
      {hasSide ? <SideColumn>{side}</SideColumn> : null}
    </div>
  );
}

/** Longer than this, a sentence is no longer one thing to do, and is set in reading size. */
const SHORT = 90;

interface SaidProps {
  readonly text: string;
  /**
   * `full`: the one thing to do. `beside`: a ledger beside it shows the same larger. `quiet`: it only repeats what
   * already stands large on the screen.
   */
  readonly size?: 'full' | 'beside' | 'quiet';
}

/** What the kiosk says, for the eye: where it is the one thing to do, it is the largest on the screen. */
export function Said({ text, size = 'full' }: SaidProps): ReactElement {
  const look = size === 'full' && text.length > SHORT ? 'long' : size;
  return (
    <p className={`said said-${look}`}>
      <Words text={text} />
    </p>
  );
}
