/** The records: how many there are, how they are kept, and everything that can be done with them. */
import type { ReactElement } from 'react';
import { TagMark } from '../parts/Shapes';
import { Sheet } from '../parts/Sheet';
import { SILENT, type ScreenOf, type ScreenProps } from '../screen-of';
import { CopyOfRecord } from './CopyOfRecord';
import { FindRecords } from './FindRecords';
import { Outcome } from './Outcome';
import { Restoring } from './Restoring';
import { WhatToDo } from './WhatToDo';

/** The page; nothing on it can change a record. */
function RecordsScreen({ view, acts }: ScreenProps<'records'>): ReactElement {
  const { records } = view;
  const { facts, root, key, keeping, warning, backup, outcome, restoring = null, reprint = null } = records;
  const side = acts.records === undefined ? null : <WhatToDo records={records} acts={acts.records} />;
  const copy = reprint?.copy ?? null;
  if (copy !== null) return <CopyOfRecord copy={copy} acts={acts} />;
  return (
    <main className="body">
      <Sheet look="records" side={side}>
        <h1>Records</h1>
        {outcome === null ? null : <Outcome outcome={outcome} />}
        {restoring === null || acts.records === undefined ? null : (
          <Restoring restoring={restoring} acts={acts.records} />
        )}
        {acts.records === undefined || records.empty ? null : <FindRecords reprint={reprint} acts={acts.records} />}
        {warning === null ? null : (
          <p className="record-warning" role="alert">
            <TagMark /> {warning}
          </p>
        )}
        <dl className="facts">
          <div>
            <dt>Facts recorded</dt>
            <dd>{String(facts)}</dd>
          </div>
        </dl>
        <ul className="record-lines">
          <li>{backup}</li>
          {keeping.map((line) => (
            <li key={line}>{line}</li>
          ))}
          <li>
            Root of the journal: <span className="code">{root ?? 'cannot be read'}</span>
          </li>
          <li>
            Key of this kiosk:{' '}
            <span className="code">{key ?? 'none, this browser cannot sign; checkpoints are marked as unsigned'}</span>
          </li>
        </ul>
      </Sheet>
      <section className="commands" aria-label="Commands">
        <div className="commands-main">
          <button type="button" className="command command-main" onClick={() => acts.leave()}>
            <span className="command-label">Back</span>
          </button>
        </div>
      </section>
    </main>
  );
}

export const RECORDS: ScreenOf<'records'> = {
  Screen: RecordsScreen,
  announce: ({ records: { outcome } }) =>
    outcome === null ? SILENT : { urgent: '', calm: [outcome.heading, ...outcome.lines].join(' ') },
};
