/** While the kiosk starts: what it is doing, in one line. */
import type { ReactElement } from 'react';
import { PendingMark } from '../parts/Shapes';
import { Sheet } from '../parts/Sheet';
import type { ScreenOf, ScreenProps } from '../screen-of';

function LoadingScreen({ view }: ScreenProps<'loading'>): ReactElement {
  return (
    <main className="body">
      <Sheet look="loading">
        <h1>Stowcall</h1>
        <p className="said">
          <PendingMark /> {view.text}
        </p>
      </Sheet>
    </main>
  );
}

export const LOADING: ScreenOf<'loading'> = {
  Screen: LoadingScreen,
  announce: ({ text }) => ({ urgent: '', calm: text }),
};
