/** For the second page on one table: the first is in charge. */
import type { ReactElement } from 'react';
import { Sheet } from '../parts/Sheet';
import { TryAgain } from '../parts/TryAgain';
import { SILENT, type ScreenOf, type ScreenProps } from '../screen-of';

function SecondTabScreen({ acts }: ScreenProps<'secondTab'>): ReactElement {
  return (
    <main className="body">
      <Sheet look="second">
        <h1>Only one page can be in charge of a table</h1>
        <p className="said">This table is already in charge in another tab. Go on there.</p>
        <p className="aside">If that tab is closed, press Try again. Nothing can be packed from here until then.</p>
      </Sheet>
      <TryAgain retry={acts.retry} />
    </main>
  );
}

export const SECOND_TAB: ScreenOf<'secondTab'> = { Screen: SecondTabScreen, announce: () => SILENT };
