/** Which components lie on the table: scanned, repeated, affirmed. */
import type { ReactElement } from 'react';
import type { BodyProps, DetailOf } from './pack-body';
import { NowMark, PassMark, PendingMark } from '../parts/Shapes';
import { Said, Sheet } from '../parts/Sheet';

type SlotState = DetailOf<'identify'>['slots'][number]['state'];

const STATE_WORDS: Readonly<Record<SlotState, string>> = {
  missing: 'to be scanned',
  readBack: 'to be affirmed',
  affirmed: 'affirmed',
};

const STATE_MARKS: Readonly<Record<SlotState, () => ReactElement>> = {
  missing: PendingMark,
  readBack: NowMark,
  affirmed: PassMark,
};

export function IdentifyScreen({ detail, prompt, notice, pad, camera }: BodyProps<'identify'>): ReactElement {
  return (
    <Sheet look="identify" side={pad ?? camera}>
      {notice}
      <h1>Identify</h1>
      <Said text={prompt.show} />
      <ul className="slots" aria-label="Components">
        {detail.slots.map(({ component, serial, state }) => {
          const StateMark = STATE_MARKS[state];
          return (
            <li key={component} className={`slot slot-${state}`}>
              <StateMark />
              <span className="slot-name">{component}</span> <span className="slot-serial code">{serial ?? ''}</span>{' '}
              <span className="slot-state">{STATE_WORDS[state]}</span>
            </li>
          );
        })}
      </ul>
    </Sheet>
  );
}
