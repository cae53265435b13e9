/** Nothing can be recorded, so nothing may be packed: why, and what to do. */
import type { ReactElement } from 'react';
import { TagMark } from '../parts/Shapes';
import { Sheet } from '../parts/Sheet';
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

export const FAULT: ScreenOf<'fault'> = {
  Screen: FaultScreen,
  announce: ({ heading, text }) => ({ urgent: `${heading} ${text}`, calm: '' }),
};
