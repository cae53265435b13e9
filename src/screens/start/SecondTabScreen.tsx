/** For the second page on one table: the first is in charge. */
import type { ReactElement } from 'react';
import { Sheet } from '../parts/Sheet';
import { SILENT, type ScreenOf, type ScreenProps } from '../screen-of';

function SecondTabScreen({ acts }: ScreenProps<'secondTab'>): ReactElement {
  return (
    <main className="body">
      <Sheet look="second">
        <h1>Only one page can be in charge of a table</h1>
        <p className="said">This table is already in charge in another tab. Go on there.</p>
        <p className="aside">If that tab is closed, press Try again. Nothing can be packed from here until then.</p>
      </Sheet>
      <section className="commands" aria-label="Commands">
        <div className="commands-main">
          <button type="button" className="command command-main" onClick={() => acts.retry()}>
            <span className="command-label">Try again</span>
          </button>
        </div>
      </section>
    </main>
  );
}

export const SECOND_TAB: ScreenOf<'secondTab'> = { Screen: SecondTabScreen, announce: () => SILENT };
