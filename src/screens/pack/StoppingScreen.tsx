/** A pack is being stopped: the one thing to do now is to say why, and then what is to be tagged. */
import type { ReactElement } from 'react';
import { Countdown } from '../hold/HoldScreen';
import { shownOf } from '../contract/pack-view';
import type { BodyProps } from './pack-body';
import { TagMark } from '../parts/Shapes';
import { Said, Sheet } from '../parts/Sheet';
import { ValuePad } from '../parts/ValuePad';

export function StoppingScreen({ detail, prompt, notice, controls, camera }: BodyProps<'stopping'>): ReactElement {
  const { open } = controls;
  const list = open !== null && open.input.kind === 'choice' ? open : null;
  // A list has its choices as controls.
  const asked = list === null ? prompt.show : shownOf(prompt.parts, ['what', 'todo', 'say']);
  return (
    <Sheet look="stopping sheet-choosing" side={camera}>
      {notice}
      <h1>
        <TagMark /> Stop and tag{detail.cause === null ? '' : `: ${detail.cause}`}
      </h1>
      {asked === '' ? null : <Said text={asked} size="beside" />}
      {detail.deadline === null ? null : <Countdown deadline={detail.deadline} />}
      {list === null ? null : <ValuePad legal={list} controls={controls} />}
    </Sheet>
  );
}
