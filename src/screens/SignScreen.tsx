/** The rigger signs by badge; what is signed for stands below. */
import type { ReactElement } from 'react';
import { CheckList } from './CheckList';
import type { BodyProps } from './pack-body';
import { Said, Sheet } from './Sheet';

export function SignScreen({ detail, prompt, notice, pad, camera }: BodyProps<'sign'>): ReactElement {
  return (
    <Sheet look="sign" side={pad ?? camera}>
      {notice}
      <h1>Sign</h1>
      <Said text={prompt.show} />
      <CheckList checks={detail.checks} label="Signed for" />
    </Sheet>
  );
}
