/** The inspection before packing: one component, every point of its list large, and what else can be found. */
import type { ReactElement } from 'react';
import { askedOf } from '../parts/asked';
import type { BodyProps, DetailOf } from './pack-body';
import { Said, Sheet } from '../parts/Sheet';
import { ValuePad } from '../parts/ValuePad';

interface NumberedProps {
  readonly name: string;
  readonly look: string;
  readonly lines: DetailOf<'inspection'>['points'];
}

/** Each line with the number under which its finding is said. */
function Numbered({ name, look, lines }: NumberedProps): ReactElement {
  return (
    <ol className={look} aria-label={name}>
      {lines.map(({ number, label }) => (
        <li key={number} value={number}>
          {label}
        </li>
      ))}
    </ol>
  );
}

export function InspectionScreen({ detail, prompt, notice, camera, controls }: BodyProps<'inspection'>): ReactElement {
  const { component, serial, number, of, points, further } = detail;
  const { open } = controls;
  const named = component.slice(0, 1).toUpperCase() + component.slice(1);
  return (
    <Sheet look="inspection" side={camera}>
      {notice}
      <p className="eyebrow">
        Inspection before packing <span className="eyebrow-kind">Part {`${String(number)} of ${String(of)}`}</span>
      </p>
      <h1>
        {named}, serial <span className="code">{serial}</span>
      </h1>
      <Said text={askedOf(prompt)} />
      {open !== null && open.input.kind === 'choice' ? (
        <ValuePad legal={open} controls={controls} />
      ) : (
        <div className="inspect-lists">
          <Numbered name="To be met" look="inspect inspect-points" lines={points} />
          <Numbered name="Other findings" look="inspect" lines={further} />
        </div>
      )}
    </Sheet>
  );
}
