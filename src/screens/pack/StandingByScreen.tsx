/** The pack stands by: since when, and where it will go on. */
import type { ReactElement } from 'react';
import type { BodyProps } from './pack-body';
import { Said, Sheet } from '../parts/Sheet';

/** "14:03" as the clock at the table showed it: the instant carries the table's own offset. */
function clockTime(instant: string): string {
  return instant.slice(11, 16);
}

export function StandingByScreen({ detail, prompt, notice, pad, camera }: BodyProps<'standingBy'>): ReactElement {
  return (
    <Sheet look="standingBy" side={pad ?? camera}>
      {notice}
      <h1>Standing by</h1>
      <Said text={prompt.show} />
      <dl className="facts">
        <div>
          <dt>Since</dt>
          <dd>
            <time dateTime={detail.since}>{clockTime(detail.since)}</time>
          </dd>
        </div>
        <div>
          <dt>Goes on at</dt>
          <dd>{detail.at}</dd>
        </div>
        {detail.handingTo === null ? null : (
          <div>
            <dt>Hand-over to</dt>
            <dd>{detail.handingTo}</dd>
          </div>
        )}
      </dl>
    </Sheet>
  );
}
