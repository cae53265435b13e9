/** The two papers of one record side by side on the screen; only the one that is asked for is printed. */
import type { ReactElement } from 'react';
import { DataCard } from './DataCard';
import { LogBookPage } from './LogBookPage';
import type { PaperProps } from './paper-props';

export function Papers(props: PaperProps): ReactElement {
  return (
    <div className="papers">
      <DataCard {...props} />
      <LogBookPage {...props} />
    </div>
  );
}
