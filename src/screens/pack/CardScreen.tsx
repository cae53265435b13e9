/** Signed: the card is printed here and goes into its pocket before the final inspection. */
import type { ReactElement } from 'react';
import type { BodyProps } from './pack-body';
import { DataCard } from '../record/papers/DataCard';
import { Said, Sheet } from '../parts/Sheet';

export function CardScreen({ detail, prompt, notice, pad, proof }: BodyProps<'card'>): ReactElement {
  return (
    <Sheet
      look="record"
      side={
        <>
          {pad}
          <DataCard record={detail.record} proof={proof} final="byHand" copyOf={null} />
        </>
      }
    >
      {notice}
      <h1>Data card</h1>
      <Said text={prompt.show} />
    </Sheet>
  );
}
