/** The signed log record on the screen, ready to be printed. */
import type { ReactElement } from 'react';
import type { BodyProps } from '../pack/pack-body';
import { Papers } from './papers/Papers';
import { Said, Sheet } from '../parts/Sheet';

export function RecordScreen({ detail, prompt, notice, pad, proof }: BodyProps<'record'>): ReactElement {
  return (
    <Sheet
      look="record"
      side={
        <>
          {pad}
          <Papers record={detail.record} proof={proof} final={detail.final} copyOf={null} />
        </>
      }
    >
      {notice}
      <h1>Log record</h1>
      <Said text={prompt.show} />
      <dl className="facts">
        <div>
          <dt>Last day of use</dt>
          <dd>{detail.record.nextDue}</dd>
        </div>
      </dl>
    </Sheet>
  );
}
