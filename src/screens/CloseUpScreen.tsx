/** Close up: every tool back, every temporary item out, every hold released, every value there. */
import type { ReactElement } from 'react';
import { CheckList } from './CheckList';
import type { BodyProps } from './pack-body';
import { Said, Sheet } from './Sheet';
import { ToolTable } from './ToolTable';

const WORDS = { caption: 'Tools returned', wanted: 'Issued', counted: 'Back' };

export function CloseUpScreen({ detail, prompt, notice, pad, camera }: BodyProps<'closeUp'>): ReactElement {
  const rows = detail.tools.map(({ name, issued, returned }) => ({ name, wanted: issued, counted: returned }));
  const side = camera ?? <ToolTable rows={rows} current={detail.current} words={WORDS} />;
  return (
    <Sheet look="closeUp" side={pad ?? side}>
      {notice}
      <h1>Close up</h1>
      <Said text={prompt.show} />
      <CheckList checks={detail.checks} label="Checks" />
    </Sheet>
  );
}
