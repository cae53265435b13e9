/** The rigger signs by badge; what is signed for stands below. */
import type { ReactElement } from 'react';
import { CheckList } from '../parts/CheckList';
import { leftOver } from '../parts/left-over';
import type { BodyProps } from './pack-body';
import { Said, Sheet } from '../parts/Sheet';

/** The checks say so line by line, so it stands small. */
const AGREE = 'Tools, temporary items, holds and values agree.';

export function SignScreen({ detail, prompt, notice, pad, camera }: BodyProps<'sign'>): ReactElement {
  const asked = leftOver(prompt.show, [AGREE]);
  return (
    <Sheet look="sign" side={pad ?? camera}>
      {notice}
      <h1>Sign</h1>
      <Said text={asked} />
      {asked === prompt.show ? null : <Said text={AGREE} size="quiet" />}
      <CheckList checks={detail.checks} label="Signed for" />
    </Sheet>
  );
}
