/** The stow ledger: the row of stows as it lies on the bag, and how much line has gone into it. */
import type { ReactElement } from 'react';
import type { Side } from '../../domain/stow/stow-plan';
import type { StowLedgerView } from '../contract/pack-view';
import { wrapWords } from '../../packing/words/words';
import { Figure } from '../parts/Figure';

const WIDTH = 280;
const HEIGHT = 150;
/** The tray in the middle, from which bights reach out to both sides. */
const TRAY = { left: 104, right: 176 };
const REACH = 82;

type StowState = 'done' | 'next' | 'todo';

function stateOf(index: number, done: number): StowState {
  if (index < done) return 'done';
  return index === done ? 'next' : 'todo';
}

function sideOf(ledger: StowLedgerView, index: number): Side | null {
  const planned = ledger.sides?.[index];
  if (planned !== undefined) return planned;
  return index === ledger.done ? ledger.nextSide : null;
}

/** One bight: a hairpin of line reaching out of the tray. */
function bightPath(side: Side, y: number, half: number): string {
  const root = side === 'left' ? TRAY.left : TRAY.right;
  const turn = side === 'left' ? root - REACH + half : root + REACH - half;
  const sweep = side === 'left' ? 0 : 1;
  const [above, below] = [y - half, y + half].map(String);
  return `M${String(root)} ${above}H${String(turn)}A${String(half)} ${String(half)} 0 0 ${String(sweep)} ${String(turn)} ${below}H${String(root)}`;
}

interface StowProps {
  readonly side: Side | null;
  readonly state: StowState;
  readonly y: number;
  readonly pitch: number;
}

function Stow({ side, state, y, pitch }: StowProps): ReactElement {
  const half = Math.min(7, pitch * 0.34);
  if (side === null) {
    return (
      <rect className={`stow stow-${state}`} x={WIDTH / 2 - half} y={y - half} width={half * 2} height={half * 2} />
    );
  }
  const tip = side === 'left' ? TRAY.left - REACH - 4 : TRAY.right + REACH + 4;
  const away = side === 'left' ? -9 : 9;
  return (
    <>
      <path className={`stow stow-${state}`} d={bightPath(side, y, half)} />
      {state === 'next' ? (
        <path className="stow-arrow" d={`M${String(tip)} ${String(y)}l${String(away)} -6v12z`} />
      ) : null}
    </>
  );
}

/** The drawn row, first stow at the bottom, as they are laid in; from the centre outward, the centre at the bottom. */
function StowRow({ ledger }: { readonly ledger: StowLedgerView }): ReactElement {
  const rowOf = (index: number): number => ledger.loops?.[index] ?? index + 1;
  const pitch = HEIGHT / Math.max(ledger.loops === null ? ledger.planned : Math.max(...ledger.loops), 1);
  const next = ledger.nextSide === null ? 'all stows are in' : `the next goes ${ledger.nextSide}`;
  const words = `${String(ledger.done)} of ${String(ledger.planned)} stows are in, ${next}`;
  return (
    <svg className="stow-row" viewBox={`0 0 ${String(WIDTH)} ${String(HEIGHT)}`} role="img" aria-label={words}>
      <rect className="stow-tray" x={TRAY.left} y="0" width={TRAY.right - TRAY.left} height={HEIGHT} rx="3" />
      {Array.from({ length: ledger.planned }, (_, index) => (
        <Stow
          key={index}
          side={sideOf(ledger, index)}
          state={stateOf(index, ledger.done)}
          y={HEIGHT - pitch * (rowOf(index) - 0.5)}
          pitch={pitch}
        />
      ))}
    </svg>
  );
}

/** What is wanted is an instruction and stands here; what only follows is measured blind. */
function AtTheEnd({ ledger: { wanted, remainder } }: { readonly ledger: StowLedgerView }): ReactElement | null {
  if (wanted === null && remainder === null) return null;
  return (
    <div>
      <dt>Left at the end</dt>
      <dd>
        {wanted === null ? null : (
          <>
            <Figure quantity={wanted.lowest} /> to <Figure quantity={wanted.highest} />
          </>
        )}
        {wanted !== null || remainder === null ? null : <Figure quantity={remainder} />}
      </dd>
    </div>
  );
}

/** Count and side to be read from two metres; the line's arithmetic below. */
export function StowLedger({ ledger }: { readonly ledger: StowLedgerView }): ReactElement {
  return (
    <section className="ledger" aria-label="Stow ledger">
      <p className="ledger-count">
        <strong>{ledger.done}</strong> of {ledger.least === null ? '' : `${String(ledger.least)} to `}
        {ledger.planned} stows
      </p>
      <p className="ledger-next">
        {ledger.nextSide === null ? (
          'All stows are in'
        ) : (
          <>
            Next: <strong>{ledger.nextSide}</strong>
            {ledger.nextLoop === null ? null : `, loop ${String(ledger.nextLoop)} from the centre`}
          </>
        )}
      </p>
      <StowRow ledger={ledger} />
      <p className="ledger-how">
        Each <Figure quantity={ledger.bight} />, span <Figure quantity={ledger.span} />, {wrapWords(ledger.wraps).show}
        {ledger.leadIn === null ? null : (
          <>
            , lead-in <Figure quantity={ledger.leadIn} />
          </>
        )}
      </p>
      {ledger.viewpoint === null ? null : <p className="ledger-how">Left and right {ledger.viewpoint}</p>}
      <dl className="ledger-line">
        <div>
          <dt>Line used</dt>
          <dd>
            <Figure quantity={ledger.lineUsed} />
          </dd>
        </div>
        {ledger.lineLeft === null ? null : (
          <div className="ledger-left">
            <dt>Left now</dt>
            <dd>
              <Figure quantity={ledger.lineLeft} />
            </dd>
          </div>
        )}
        <AtTheEnd ledger={ledger} />
      </dl>
    </section>
  );
}
