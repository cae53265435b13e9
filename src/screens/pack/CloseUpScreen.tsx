/** Tools counted again: before the container is closed over everything, and before the signature. */
import type { ReactElement } from 'react';
import { CheckList } from '../parts/CheckList';
import type { BodyProps } from './pack-body';
import { Said, Sheet } from '../parts/Sheet';
import { ToolTable } from './ToolTable';

const WORDS = { caption: 'Tools outside the pack', wanted: 'Issued', counted: 'Counted' };

export function CloseUpScreen({ detail, prompt, notice, pad, camera }: BodyProps<'closeUp'>): ReactElement {
  const rows = detail.tools.map(({ name, issued, returned }) => ({ name, wanted: issued, counted: returned }));
  const side = camera ?? <ToolTable rows={rows} current={detail.current} words={WORDS} />;
  return (
    <Sheet look="closeUp" side={pad ?? side}>
      {notice}
      <h1>{detail.beforeClosing ? 'Before closing' : 'Close up'}</h1>
      <Said text={prompt.show} />
      {detail.checks.length === 0 ? null : <CheckList checks={detail.checks} label="Checks" />}
    </Sheet>
  );
}
