/** An inspection hold: what is to be inspected, by whom, and how long a verdict may still take. */
import type { ReactElement } from 'react';
import { epochMs, type Instant } from '../../domain/instant';
import { askedOf } from '../parts/asked';
import type { BodyProps, DetailOf } from '../pack/pack-body';
import { GateMark } from '../parts/Shapes';
import { Said, Sheet } from '../parts/Sheet';
import { useNow } from '../parts/use-now';
import { ValuePad } from '../parts/ValuePad';

/** Whole seconds until `deadline`, never below zero. */
export function secondsLeft(deadline: Instant, nowMs: number): number {
  return Math.max(0, Math.ceil((epochMs(deadline) - nowMs) / 1000));
}

/** Counts down on the screen only; whether time has run out is decided by the pack. */
export function Countdown({ deadline }: { readonly deadline: Instant }): ReactElement {
  const left = secondsLeft(deadline, useNow());
  return (
    <p className="countdown" role="timer" aria-label="Time left for a verdict">
      <strong>{left}</strong> {left === 1 ? 'second' : 'seconds'} left
    </p>
  );
}

function Inspect({ lines }: { readonly lines: readonly string[] }): ReactElement {
  return (
    <ul className="inspect inspect-points" aria-label="To be inspected">
      {lines.map((line, index) => (
        <li key={index}>{line}</li>
      ))}
    </ul>
  );
}

function Findings({ findings }: Pick<DetailOf<'hold'>, 'findings'>): ReactElement {
  return (
    <ol className="inspect" aria-label="Findings">
      {findings.map(({ number, text }) => (
        <li key={number} value={number}>
          {text}
        </li>
      ))}
    </ol>
  );
}

/** Which inspector is needed, who is there, or what is being chosen. */
function Who({ detail }: { readonly detail: DetailOf<'hold'> }): ReactElement {
  const { phase, inspector, inspectorClass } = detail;
  if (phase === 'choosingFinding') return <>Return: which finding?</>;
  if (phase === 'choosingPoint') return <>Return: what is not so?</>;
  if (phase === 'choosingStage') return <>Return: to which stage?</>;
  return inspector === null ? (
    <>Inspector for {inspectorClass} holds: look first, then scan your badge</>
  ) : (
    <>Inspector: {inspector}</>
  );
}

/** Choosing replaces what was inspected by the list to choose from. */
function HoldMatter({ detail, controls }: Pick<BodyProps<'hold'>, 'detail' | 'controls'>): ReactElement | null {
  const { open } = controls;
  if (open !== null && open.input.kind === 'choice') return <ValuePad legal={open} controls={controls} />;
  if (detail.phase === 'choosingFinding') return <Findings findings={detail.findings} />;
  if (detail.phase === 'choosingStage') return null;
  return <Inspect lines={detail.inspect} />;
}

export function HoldScreen({ detail, prompt, notice, pad, camera, controls }: BodyProps<'hold'>): ReactElement {
  const choosing = controls.open?.input.kind === 'choice';
  const countdown = detail.deadline === null ? null : <Countdown deadline={detail.deadline} />;
  const asked = askedOf(prompt);
  const side =
    countdown === null && camera === null ? null : (
      <>
        {countdown}
        {camera}
      </>
    );
  return (
    <Sheet look={choosing ? 'hold sheet-choosing' : 'hold'} side={choosing ? null : (pad ?? side)}>
      {notice}
      <div className="hold-head">
        <p className="eyebrow">
          <GateMark /> {detail.final ? 'Final inspection' : `Hold ${String(detail.number)} of ${String(detail.of)}`}
          <span className="eyebrow-kind">
            <Who detail={detail} />
          </span>
          {detail.called && detail.inspector === null ? <span className="eyebrow-kind">Call written down</span> : null}
        </p>
        {choosing ? countdown : null}
        {choosing ? camera : null}
      </div>
      <h1>{detail.title}</h1>
      {asked === '' ? null : <Said text={asked} size="quiet" />}
      <HoldMatter detail={detail} controls={controls} />
    </Sheet>
  );
}
