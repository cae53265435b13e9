/** Check-in: may this assembly be packed today, by this rigger, with these tools. */
import type { ReactElement } from 'react';
import { CheckList } from '../parts/CheckList';
import type { BodyProps } from './pack-body';
import { Said, Sheet } from '../parts/Sheet';
import { ToolTable } from './ToolTable';

const WORDS = { caption: 'Tools issued', wanted: 'Planned', counted: 'Counted' };

export function CheckInScreen({ detail, prompt, notice, pad, camera }: BodyProps<'checkIn'>): ReactElement {
  const { tools, current, checks } = detail;
  const rows = tools.map(({ name, planned, counted }) => ({ name, wanted: planned, counted }));
  const tally = current === null ? null : <ToolTable rows={rows} current={current} words={WORDS} />;
  const side = camera ?? tally;
  return (
    <Sheet look="checkIn" side={pad ?? side}>
      {notice}
      <h1>Check in</h1>
      <Said text={prompt.show} />
      <dl className="facts">
        <div>
          <dt>Assembly</dt>
          <dd>{detail.assembly}</dd>
        </div>
        <div>
          <dt>Procedure</dt>
          <dd>{detail.procedure}</dd>
        </div>
      </dl>
      <CheckList checks={checks} label="Checks" brief={current !== null} />
    </Sheet>
  );
}
