/** The one control of a screen on which nothing else can be done. */
import type { ReactElement } from 'react';
import type { Acts } from '../contract/acts';

export function TryAgain({ retry }: Pick<Acts, 'retry'>): ReactElement {
  return (
    <section className="commands" aria-label="Commands">
      <div className="commands-main">
        <button type="button" className="command command-main" onClick={() => retry()}>
          <span className="command-label">Try again</span>
        </button>
      </div>
    </section>
  );
}
