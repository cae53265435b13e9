/** The rigger signs by badge; what is signed for stands below. */
import type { ReactElement } from 'react';
import { CheckList } from '../parts/CheckList';
import { askedOf } from '../parts/asked';
import { shownOf } from '../contract/pack-view';
import type { BodyProps } from './pack-body';
import { Said, Sheet } from '../parts/Sheet';

export function SignScreen({ detail, prompt, notice, pad, camera }: BodyProps<'sign'>): ReactElement {
  // The checks say so line by line, so it stands small.
  const agreed = shownOf(prompt.parts, ['what']);
  return (
    <Sheet look="sign" side={pad ?? camera}>
      {notice}
      <h1>Sign</h1>
      <Said text={askedOf(prompt)} />
      {agreed === '' ? null : <Said text={agreed} size="quiet" />}
      <CheckList checks={detail.checks} label="Signed for" />
    </Sheet>
  );
}
