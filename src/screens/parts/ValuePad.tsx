/** The open pad of a command that needs a value: numbers, lengths with fractions, or a list to choose from. */
import { useEffect, useRef, useState, type ReactElement, type ReactNode } from 'react';
import { mixedNumber, type Unit } from '../../domain/quantity';
import type { LegalCommand, TouchInput } from '../contract/pack-view';
import {
  chooseSixteenths,
  chooseUnit,
  rubOut,
  typeDigit,
  typedCommand,
  typePoint,
  unitOf,
  unitsBeside,
  type Typed,
} from './typing';
import { NotePad } from '../hold/NotePad';
import { isList, type Controls } from './use-controls';

const DIGITS = ['7', '8', '9', '4', '5', '6', '1', '2', '3'];
const SIXTEENTHS = Array.from({ length: 16 }, (_, index) => index);
const UNIT_WORDS: Readonly<Record<Unit, string>> = { in: 'inches', ft: 'feet', cm: 'centimetres', mm: 'millimetres' };

/** "none", "1/16", "1/8", "3/16" and so on, in lowest terms. */
function fractionLabel(sixteenths: number): string {
  const fraction = mixedNumber({ value: sixteenths / 16, unit: 'in' })?.fraction ?? null;
  return fraction === null ? 'none' : `${String(fraction.over)}/${String(fraction.under)}`;
}

interface PadProps {
  readonly legal: LegalCommand;
  readonly controls: Controls;
}

interface PadKeyProps {
  readonly children: ReactNode;
  readonly label?: string;
  readonly chosen?: boolean;
  readonly press: () => void;
}

function PadKey({ children, label, chosen, press }: PadKeyProps): ReactElement {
  return (
    <button
      type="button"
      className="pad-key"
      {...(label === undefined ? {} : { 'aria-label': label })}
      {...(chosen === undefined ? {} : { 'aria-pressed': chosen })}
      onClick={(event) => {
        press();
        // After a finger the focus goes back to the pad, so that a typed Enter enters the value and not this key again.
        if (event.detail > 0) event.currentTarget.closest<HTMLElement>('.pad')?.focus();
      }}
    >
      {children}
    </button>
  );
}

interface NumberKeysProps {
  readonly controls: Controls;
  readonly point: boolean;
}

function NumberKeys({ controls, point }: NumberKeysProps): ReactElement {
  const { typed, type } = controls;
  return (
    <div className="pad-numbers" role="group" aria-label="Digits">
      {DIGITS.map((digit) => (
        <PadKey key={digit} press={() => type(typeDigit(typed, digit))}>
          {digit}
        </PadKey>
      ))}
      {point ? (
        <PadKey label="decimal point" press={() => type(typePoint(typed))}>
          .
        </PadKey>
      ) : (
        <span />
      )}
      <PadKey press={() => type(typeDigit(typed, '0'))}>0</PadKey>
      <PadKey label="take back the last digit" press={() => type(rubOut(typed))}>
        <svg className="mark" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
          <path className="pad-rub" d="M22 5H9l-7 7 7 7h13zM11 9l6 6M17 9l-6 6" />
        </svg>
      </PadKey>
    </div>
  );
}

function Fractions({ controls }: { readonly controls: Controls }): ReactElement {
  const { typed, type } = controls;
  return (
    <div className="pad-fractions" role="group" aria-label="Fraction of an inch">
      {SIXTEENTHS.map((sixteenths) => (
        <PadKey
          key={sixteenths}
          chosen={typed.sixteenths === sixteenths}
          press={() => type(chooseSixteenths(typed, sixteenths))}
        >
          {fractionLabel(sixteenths)}
        </PadKey>
      ))}
    </div>
  );
}

function typedWords(typed: Typed): string {
  const fraction = typed.sixteenths === 0 ? '' : fractionLabel(typed.sixteenths);
  return [typed.digits, fraction].filter((part) => part !== '').join(' ');
}

interface EnterProps extends PadProps {
  readonly words: string;
  readonly unit: string;
}

/** Shows the value as it stands and enters it. It is then spoken back: nothing counts before "affirm". */
function Enter({ legal, controls, words, unit }: EnterProps): ReactElement {
  const ready = typedCommand(legal, controls.typed) !== null;
  return (
    <div className="pad-enter">
      <output className="pad-value">
        {words === '' ? <span className="pad-empty">type a number</span> : words}{' '}
        <span className="pad-unit">{unit}</span>
      </output>
      <button
        type="button"
        className="command command-main pad-go"
        disabled={!ready}
        onClick={() => controls.enter('touch')}
      >
        <span className="command-label">Enter</span> <kbd>Enter</kbd>
      </button>
    </div>
  );
}

function CountPad(props: PadProps & { readonly input: Extract<TouchInput, { kind: 'count' }> }): ReactElement {
  const { controls, input } = props;
  const tooMany = Number(controls.typed.digits) > input.max;
  return (
    <>
      <Enter {...props} words={controls.typed.digits} unit={input.noun} />
      {tooMany ? <p className="pad-limit">At most {input.max} can be counted here.</p> : null}
      <NumberKeys controls={controls} point={false} />
    </>
  );
}

function QuantityPad(props: PadProps & { readonly input: Extract<TouchInput, { kind: 'quantity' }> }): ReactElement {
  const { controls, input } = props;
  const unit = unitOf(controls.typed, input);
  return (
    <>
      <Enter {...props} words={typedWords(controls.typed)} unit={UNIT_WORDS[unit]} />
      <div className="pad-units" role="group" aria-label="Unit">
        {unitsBeside(input.unit).map((each) => (
          <PadKey key={each} chosen={each === unit} press={() => controls.type(chooseUnit(controls.typed, each))}>
            {UNIT_WORDS[each]}
          </PadKey>
        ))}
      </div>
      <div className="pad-halves">
        <NumberKeys controls={controls} point={unit !== 'in'} />
        {unit === 'in' ? <Fractions controls={controls} /> : null}
      </div>
    </>
  );
}

function ChoicePad(props: PadProps & { readonly input: Extract<TouchInput, { kind: 'choice' }> }): ReactElement {
  const { controls, input } = props;
  const [note, setNote] = useState('');
  return (
    <>
      <ol className="pad-choices">
        {input.options.map(({ number, label }) => (
          <li key={number}>
            <button type="button" className="command pad-choice" onClick={() => controls.choose(number, 'touch', note)}>
              <span className="pad-choice-number">{number}</span> <span className="command-label">{label}</span>
            </button>
          </li>
        ))}
      </ol>
      {input.note === null ? null : (
        <NotePad note={note} max={input.note.max} option={input.note.number} write={setNote} />
      )}
      {controls.typed.digits === '' ? null : (
        <p className="pad-limit">
          Number {controls.typed.digits}, then <kbd>Enter</kbd>
        </p>
      )}
    </>
  );
}

function PadBody(props: PadProps): ReactElement | null {
  const { input } = props.legal;
  switch (input.kind) {
    case 'count':
      return <CountPad {...props} input={input} />;
    case 'quantity':
      return <QuantityPad {...props} input={input} />;
    case 'choice':
      return <ChoicePad {...props} input={input} />;
    case 'press':
      return null;
  }
}

/** The pad of the command that is open. A list that is the one thing to do now cannot be closed. */
export function ValuePad({ legal, controls }: PadProps): ReactElement {
  const ref = useRef<HTMLElement>(null);
  const { name, input } = legal;
  const fixed = isList(legal);
  useEffect(() => {
    if (!fixed) ref.current?.focus();
  }, [name, fixed]);
  return (
    <section className={`pad pad-${input.kind}`} ref={ref} tabIndex={-1} aria-label={legal.label}>
      <div className="pad-head">
        <h2>
          {legal.label}{' '}
          <span className="command-phrase">
            say: {legal.phrase}
            {input.kind === 'choice' ? '; or type its number, then Enter' : ''}
          </span>
        </h2>
        {fixed ? null : (
          <button type="button" className="pad-close" onClick={() => controls.close()}>
            Close <kbd>Esc</kbd>
          </button>
        )}
      </div>
      <PadBody legal={legal} controls={controls} />
    </section>
  );
}
