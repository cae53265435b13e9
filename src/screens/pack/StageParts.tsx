/** The pieces that a packing stage and a rehearsed stage share. */
import type { ReactElement } from 'react';
import { CautionMark, TrayMark } from '../parts/Shapes';

interface StageTitleProps {
  readonly number: number;
  readonly of: number;
  /** What kind of act it is, in a word or two. */
  readonly word: string;
  readonly title: string;
  /** Temporary items that are in now. */
  readonly itemsIn?: readonly string[];
}

/** Number, kind of act, and the title: the largest words of a stage. */
export function StageTitle({ number, of, word, title, itemsIn = [] }: StageTitleProps): ReactElement {
  return (
    <div className="stage-title">
      <p className="eyebrow">
        <span>
          Stage <span className="bight-number">{number}</span> of {of}
        </span>
        <span className="eyebrow-kind">{word}</span>
        {itemsIn.length === 0 ? null : (
          <span className="items-in">
            <TrayMark direction="in" /> In now: <strong>{itemsIn.join(', ')}</strong>
          </span>
        )}
      </p>
      <h1>{title}</h1>
    </div>
  );
}

/** The single actions, in order. */
export function Steps({ steps }: { readonly steps: readonly string[] }): ReactElement | null {
  if (steps.length === 0) return null;
  return (
    <ol className="steps">
      {steps.map((step, index) => (
        <li key={index}>{step}</li>
      ))}
    </ol>
  );
}

/** A caution of the procedure. */
export function Caution({ text }: { readonly text: string }): ReactElement {
  return (
    <p className="caution">
      <CautionMark />
      <span>
        <strong>Caution.</strong> {text}
      </span>
    </p>
  );
}
