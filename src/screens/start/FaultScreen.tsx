/** Nothing can be recorded, so nothing may be packed: why, and what to do. */
import type { ReactElement } from 'react';
import { TagMark } from '../parts/Shapes';
import { Sheet } from '../parts/Sheet';

interface FaultScreenProps {
  readonly heading: string;
  readonly text: string;
  readonly retry: () => void;
}

export function FaultScreen({ heading, text, retry }: FaultScreenProps): ReactElement {
  return (
    <main className="body">
      <Sheet look="fault">
        <h1>
          <TagMark /> {heading}
        </h1>
        <p className="said">{text}</p>
      </Sheet>
      <section className="commands" aria-label="Commands">
        <div className="commands-main">
          <button type="button" className="command command-main" onClick={retry}>
            <span className="command-label">Try again</span>
          </button>
        </div>
      </section>
    </main>
  );
}
