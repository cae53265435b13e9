/** The body of a screen: one column for what is to be done, fitted to be seen whole, and one beside it. */
import type { ReactElement, ReactNode } from 'react';
import { useFit } from './use-fit';

interface SheetProps {
  readonly children: ReactNode;
  /** Picture, ledger or pad beside the main column; null or absent for none. */
  readonly side?: ReactNode;
  /** Name of the screen, for its own look. */
  readonly look: string;
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
      {hasSide ? <div className="sheet-side">{side}</div> : null}
    </div>
  );
}

/** Longer than this, a sentence is no longer one thing to do, and is set in reading size. */
const SHORT = 90;

interface SaidProps {
  readonly text: string;
  /** True where the same is already shown large, and this is only what the voice says of it. */
  readonly quiet?: boolean;
}

/** What the kiosk says, for the eye: where it is the one thing to do, it is the largest on the screen. */
export function Said({ text, quiet = false }: SaidProps): ReactElement {
  const size = quiet ? 'said-quiet' : text.length > SHORT ? 'said-long' : '';
  return <p className={`said ${size}`.trim()}>{text}</p>;
}
