/** Signed: the card is printed here and goes into its pocket before the final inspection. */
import type { ReactElement } from 'react';
import type { BodyProps } from './pack-body';
import { RecordCard } from './RecordCard';
import { Said, Sheet } from './Sheet';

export function CardScreen({ detail, prompt, notice, pad, proof }: BodyProps<'card'>): ReactElement {
  return (
    <Sheet
      look="record"
      side={
        <>
          {pad}
          <RecordCard record={detail.record} proof={proof} final="byHand" />
        </>
      }
    >
      {notice}
      <h1>Card</h1>
      <Said text={prompt.show} />
    </Sheet>
  );
}
