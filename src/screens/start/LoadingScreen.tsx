/** While the kiosk starts: what it is doing, in one line. */
import type { ReactElement } from 'react';
import { PendingMark } from '../parts/Shapes';
import { Sheet } from '../parts/Sheet';

export function LoadingScreen({ text }: { readonly text: string }): ReactElement {
  return (
    <main className="body">
      <Sheet look="loading">
        <h1>Stowcall</h1>
        <p className="said">
          <PendingMark /> {text}
        </p>
      </Sheet>
    </main>
  );
}
