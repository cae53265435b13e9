/** A value or act that was repeated: it counts only after "affirm", so nothing else is asked now. */
import type { ReactElement } from 'react';
import type { Detail, PackView } from '../contract/pack-view';
import { CommandButton } from '../parts/CommandPad';
import { Countdown } from '../hold/HoldScreen';
import type { BodySurroundings } from './pack-body';
import { Said, Sheet } from '../parts/Sheet';
import { Words } from '../parts/Words';

/** The screen's own name, small above the value. */
function contextOf(detail: Detail): string {
  switch (detail.screen) {
    case 'stage':
      return `Stage ${String(detail.number)} of ${String(detail.of)}: ${detail.title}`;
    case 'hold':
      return `Hold ${String(detail.number)} of ${String(detail.of)}: ${detail.title}`;
    case 'identify':
      return 'Identify';
    case 'checkIn':
      return 'Check in';
    case 'stopping':
      return 'Stop and tag';
    case 'closeUp':
    case 'items':
      return detail.beforeClosing ? 'Before closing' : 'Close up';
    default:
      return 'Read back';
  }
}

/** Long read-backs get smaller type, so that they are seen whole. */
function lengthClass(text: string): string {
  if (text.length <= 14) return 'value-short';
  return text.length <= 40 ? 'value-medium' : 'value-long';
}

type ReadBackProps = Pick<BodySurroundings, 'view' | 'controls' | 'notice' | 'camera'> & {
  readonly readBack: NonNullable<PackView['readBack']>;
};

export function ReadBackScreen({ view, readBack, controls, notice, camera }: ReadBackProps): ReactElement {
  const { detail } = view;
  const answers = controls.legal.filter(({ name }) => name === 'affirm' || name === 'negative');
  const deadline = detail.screen === 'hold' || detail.screen === 'stopping' ? detail.deadline : null;
  return (
    <Sheet look="readBack" side={camera}>
      {notice}
      <p className="eyebrow">{contextOf(detail)}</p>
      <h1>Is this right?</h1>
      <p className={`value ${lengthClass(readBack.show)}`}>
        <Words text={readBack.show} />
      </p>
      {view.prompt.show === readBack.show ? null : <Said text={view.prompt.show} size="quiet" />}
      {deadline === null ? null : <Countdown deadline={deadline} />}
      <div className="answers">
        {answers.map((each) => (
          <CommandButton key={each.name} legal={{ ...each, main: true }} controls={controls} />
        ))}
      </div>
    </Sheet>
  );
}
