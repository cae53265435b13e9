/** Restoring a copy: it is checked, and waits for the badge of a lead. */
import type { ReactElement } from 'react';
import type { RecordActs, RestoringView } from '../contract/records-view';
import { PendingMark } from '../parts/Shapes';

interface RestoringProps {
  readonly restoring: RestoringView;
  readonly acts: RecordActs;
}

/** A file that waits for the badge of a lead. */
export function Restoring({ restoring, acts }: RestoringProps): ReactElement {
  const { prompt, behind } = restoring;
  return (
    <section className="panel outcome" aria-label="Restoring">
      <h2 role="alert">
        <PendingMark /> {behind === null ? prompt : 'This copy is older than the seals of this kiosk'}
      </h2>
      {behind === null ? null : (
        <>
          <p>{behind}</p>
          <button type="button" className="command record-act" onClick={() => acts.restoreAllTheSame?.()}>
            <span className="command-label">Restore all the same</span>{' '}
            <span className="command-phrase">then the badge of a lead</span>
          </button>
        </>
      )}
      <button type="button" className="command record-act" onClick={() => acts.cancelRestore?.()}>
        <span className="command-label">Do not restore</span>
      </button>
    </section>
  );
}
