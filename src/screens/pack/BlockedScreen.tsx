/** Check-in failed: what stands against packing. Nothing on this screen can talk past it. */
import type { ReactElement } from 'react';
import { CheckList } from '../parts/CheckList';
import { shownOf } from '../contract/pack-view';
import type { BodyProps } from './pack-body';
import { TagMark } from '../parts/Shapes';
import { Said, Sheet } from '../parts/Sheet';

const APART = 'Keep the assembly apart from what is fit for use.';

export function BlockedScreen({ detail, prompt, notice, pad, camera }: BodyProps<'blocked'>): ReactElement {
  return (
    <Sheet look="blocked" side={pad ?? camera}>
      {notice}
      <h1>
        <TagMark /> Not to be packed
      </h1>
      <p className="apart">{APART}</p>
      <Said text={shownOf(prompt.parts, ['what', 'todo', 'say'])} />
      <CheckList checks={detail.checks} label="Checks" brief />
    </Sheet>
  );
}
