/** What came of the last thing asked for on the records page. */
import type { ReactElement } from 'react';
import type { RecordsOutcome } from '../contract/records-view';
import { PassMark, PendingMark, TagMark } from '../parts/Shapes';

const MARKS: Readonly<Record<RecordsOutcome['tone'], () => ReactElement>> = {
  good: PassMark,
  bad: TagMark,
  busy: PendingMark,
};

export function Outcome({ outcome }: { readonly outcome: RecordsOutcome }): ReactElement {
  const OutcomeMark = MARKS[outcome.tone];
  return (
    <section className={`panel outcome outcome-${outcome.tone}`} aria-label="What came of it">
      <h2>
        <OutcomeMark /> {outcome.heading}
        {outcome.tone === 'busy' ? ' …' : ''}
      </h2>
      {outcome.lines.length === 0 ? null : (
        <ul>
          {outcome.lines.map((line, index) => (
            <li key={index}>{line}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
