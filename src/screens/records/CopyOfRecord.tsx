/** A record that is printed again. */
import type { ReactElement } from 'react';
import { PAPERS } from '../../domain/log-record';
import type { Acts } from '../contract/acts';
import type { RecordCopy } from '../contract/records-view';
import { Papers } from '../record/papers/Papers';
import { PAPER_WORDS } from '../record/papers/paper-words';
import { Sheet } from '../parts/Sheet';

/** One record as a marked copy, and nothing else on the page. */
export function CopyOfRecord({ copy, acts }: { readonly copy: RecordCopy; readonly acts: Acts }): ReactElement {
  const { record, final, proof, madeAt } = copy;
  const waits = proof.state === 'making';
  return (
    <main className="body">
      <Sheet look="record" side={<Papers record={record} final={final} proof={proof} copyOf={madeAt} />}>
        <h1>Copy</h1>
        <p>
          {record.assembly}, packed on {record.packedOn}. Both papers are marked as copies.
        </p>
      </Sheet>
      <section className="commands" aria-label="Commands">
        <div className="commands-main">
          {PAPERS.map((paper) => (
            <button
              key={paper}
              type="button"
              className="command command-main"
              disabled={waits}
              onClick={() => acts.print(paper)}
            >
              <span className="command-label">Print the {PAPER_WORDS[paper]}</span>
            </button>
          ))}
          <button type="button" className="command command-tall" onClick={() => acts.records?.closeCopy?.()}>
            <span className="command-label">Back to the records</span>
          </button>
        </div>
      </section>
    </main>
  );
}
