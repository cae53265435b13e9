/** Temporary items: which must lie in the tray, and which are inside as the procedure says. */
import type { ReactElement } from 'react';
import type { BodyProps } from './pack-body';
import { Said, Sheet } from '../parts/Sheet';

function Items({ label, names }: { readonly label: string; readonly names: readonly string[] }): ReactElement {
  return (
    <section>
      <h2>{label}</h2>
      <ul className="inspect" aria-label={label}>
        {names.length === 0 ? <li>none</li> : names.map((name) => <li key={name}>{name}</li>)}
      </ul>
    </section>
  );
}

export function ItemsScreen({ detail, prompt, notice, pad, camera }: BodyProps<'items'>): ReactElement {
  return (
    <Sheet look="items" side={pad ?? camera}>
      {notice}
      <h1>{detail.beforeClosing ? 'Before closing' : 'Close up'}</h1>
      <Said text={prompt.show} />
      <Items label="In the tray" names={detail.out} />
      <Items label="Inside" names={detail.inside} />
    </Sheet>
  );
}
