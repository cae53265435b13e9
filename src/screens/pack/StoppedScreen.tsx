/** The pack was stopped before its end: what carries the tag, why, and that it is kept apart. */
import type { ReactElement } from 'react';
import type { BodyProps } from './pack-body';
import { TagMark } from '../parts/Shapes';
import { Said, Sheet } from '../parts/Sheet';

export function StoppedScreen({ detail, prompt, notice, pad, camera }: BodyProps<'stopped'>): ReactElement {
  return (
    <Sheet look="stopped" side={pad ?? camera}>
      {notice}
      <h1>
        <TagMark /> Stopped: not fit for use
      </h1>
      <Said text={prompt.show} />
      <dl className="facts">
        <div>
          <dt>Tagged</dt>
          <dd>{detail.tagged}</dd>
        </div>
        {detail.cause === null ? null : (
          <div>
            <dt>Cause</dt>
            <dd>{detail.cause}</dd>
          </div>
        )}
        <div>
          <dt>Reason</dt>
          <dd>{detail.reason}</dd>
        </div>
      </dl>
    </Sheet>
  );
}
