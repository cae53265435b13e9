/** Nothing can be recorded, so nothing may be packed: why, and what to do. */
import type { ReactElement } from 'react';
import { TagMark } from '../parts/Shapes';
import { Sheet } from '../parts/Sheet';
import { TryAgain } from '../parts/TryAgain';
import type { ScreenOf, ScreenProps } from '../screen-of';

function FaultScreen({ view, acts }: ScreenProps<'fault'>): ReactElement {
  return (
    <main className="body">
      <Sheet look="fault">
        <h1>
          <TagMark /> {view.heading}
        </h1>
        <p className="said">{view.text}</p>
      </Sheet>
      <TryAgain retry={acts.retry} />
    </main>
  );
}

export const FAULT: ScreenOf<'fault'> = {
  Screen: FaultScreen,
  announce: ({ heading, text }) => ({ urgent: `${heading} ${text}`, calm: '' }),
};
