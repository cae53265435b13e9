/** The pad for a PIN: one thing to do, nothing of it spoken, and only dots to see. */
import { useState, type ReactElement } from 'react';
import { PIN_LENGTH } from '../../domain/pin';
import type { PinActs, PinView } from '../contract/pin-view';

const DIGITS = ['7', '8', '9', '4', '5', '6', '1', '2', '3'];

interface PinScreenProps {
  readonly pin: PinView;
  readonly acts: PinActs;
}

interface KeyProps {
  readonly text: string;
  readonly label?: string;
  readonly off: boolean;
  readonly press: () => void;
}

function PinKey({ text, label, off, press }: KeyProps): ReactElement {
  return (
    <button type="button" className="pad-key pin-key" disabled={off} aria-label={label ?? text} onClick={press}>
      {text}
    </button>
  );
}

/** Drawn anew for each person (by its key), so that no digit is left from another. */
function PinPad({ pin, acts }: PinScreenProps): ReactElement {
  const [digits, setDigits] = useState('');
  const { checking } = pin;
  const isReady = digits.length >= PIN_LENGTH.least && !checking;
  const type = (digit: string): void => {
    if (digits.length < PIN_LENGTH.most) setDigits(digits + digit);
  };
  return (
    <>
      <output className="pad-value pin-dots" aria-label={`${String(digits.length)} digits entered`}>
        {digits === '' ? <span className="pad-empty">no digits yet</span> : '\u25cf'.repeat(digits.length)}
      </output>
      <div className="pad-numbers pin-numbers" role="group" aria-label="Digits">
        {DIGITS.map((digit) => (
          <PinKey key={digit} text={digit} off={checking} press={() => type(digit)} />
        ))}
        <PinKey text="Clear" off={checking} press={() => setDigits('')} />
        <PinKey text="0" off={checking} press={() => type('0')} />
        <PinKey text="Back" off={checking} press={acts.cancel} />
      </div>
      <button
        type="button"
        className="command command-main pin-enter"
        disabled={!isReady}
        onClick={() => acts.enter(digits)}
      >
        <span className="command-label">{checking ? 'One moment' : 'Enter'}</span>
      </button>
    </>
  );
}

export function PinScreen({ pin, acts }: PinScreenProps): ReactElement {
  return (
    <main className="pin-screen">
      <div className="pin-head">
        <p className="eyebrow">{pin.person}</p>
        <h1>Enter your PIN on the pad</h1>
        <p>Not aloud: a PIN is never spoken and never heard here.</p>
      </div>
      <div className="pin-pad">
        <PinPad key={pin.key} pin={pin} acts={acts} />
      </div>
    </main>
  );
}
