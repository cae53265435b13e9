/** The pieces that a packing stage and a rehearsed stage share. */
import type { ReactElement } from 'react';
import { CautionMark } from './Shapes';

interface StageTitleProps {
  readonly number: number;
  readonly of: number;
  /** What kind of act it is, in a word or two. */
  readonly word: string;
  readonly title: string;
}

/** Number in a bight of line, what kind of act, and the title: the largest words of a stage. */
export function StageTitle({ number, of, word, title }: StageTitleProps): ReactElement {
  return (
    <div className="stage-title">
      <p className="eyebrow">
        <span className="bight-number">{number}</span>
        Stage {number} of {of} <span className="eyebrow-kind">{word}</span>
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
