/** The state of a screen's controls: which pad is open, what has been typed, and the command that touch or key gives. */
import { useEffect, useRef, useState } from 'react';
import type { Command } from '../../domain/command';
import type { Acts } from '../contract/acts';
import type { LegalCommand } from '../contract/pack-view';
import { commandForKey } from './keys';
import { createLoneKeys, type KeyPress } from './lone-key';
import { chosen, NOTHING_TYPED, pressed, rubOut, typeDigit, typedCommand, typePoint, type Typed } from './typing';

type ByHand = 'touch' | 'key';

export interface Controls {
  /** Changes when another step is asked for. */
  readonly promptKey: string;
  readonly legal: readonly LegalCommand[];
  /** The command whose pad is open; null for none. */
  readonly open: LegalCommand | null;
  readonly typed: Typed;
  type(typed: Typed): void;
  /** A control or its key was pressed: gives the command, or opens its pad. */
  press(legal: LegalCommand, by: ByHand): void;
  choose(number: number, by: ByHand, note?: string): void;
  enter(by: ByHand): void;
  close(): void;
}

/** A pad belongs to one prompt: what was typed for the step before must not reach this one. */
interface PadState {
  readonly promptKey: string;
  readonly name: string | null;
  readonly typed: Typed;
}

/** A list that is the one thing to choose from now is open of itself. */
export function isList({ main, input }: LegalCommand): boolean {
  return main && input.kind === 'choice';
}

/** The command whose pad is open, when `name` was asked for. */
function openFor(legal: readonly LegalCommand[], name: string | null): LegalCommand | null {
  const asked = legal.find((each) => each.name === name && each.input.kind !== 'press');
  return asked ?? legal.find(isList) ?? null;
}

/** Handles one key that stood alone. */
function actOnKey(controls: Controls, { key, shift }: KeyPress): void {
  const name = commandForKey(key, shift);
  const legal = controls.legal.find((each) => each.name === name);
  if (legal !== undefined) controls.press(legal, 'key');
  if (controls.open === null) return;
  if (/^[0-9]$/.test(key)) controls.type(typeDigit(controls.typed, key));
  else if (key === '.' && controls.open.input.kind === 'quantity') controls.type(typePoint(controls.typed));
  else if (key === 'Backspace') controls.type(rubOut(controls.typed));
  else if (key === 'Enter' && !(document.activeElement instanceof HTMLButtonElement)) controls.enter('key');
  else if (key === 'Escape') controls.close();
}

const MODIFIERS = ['Shift', 'Control', 'Alt', 'Meta', 'AltGraph', 'CapsLock', 'NumLock'];

/** Listens for keys on the window until the returned function is called; `current` gives the controls of the moment. */
function listenForKeys(current: () => Controls): () => void {
  let pressedAt = '';
  const down = new Set<string>();
  const lone = createLoneKeys((press) => {
    // A key that was meant for the step before must not answer this one.
    if (current().promptKey === pressedAt) actOnKey(current(), press);
  });
  const onKeyDown = (event: KeyboardEvent): void => {
    if (MODIFIERS.includes(event.key)) return;
    const { key, shiftKey, timeStamp } = event;
    down.add(key);
    pressedAt = current().promptKey;
    const inBurst = lone.press({ key, shift: shiftKey }, timeStamp);
    if (event.ctrlKey || event.altKey || event.metaKey || event.repeat) lone.drop();
    // The Enter or space of a scanner must not press whatever control happens to have the focus.
    if (inBurst && (key === 'Enter' || key === ' ')) event.preventDefault();
    const name = commandForKey(key, shiftKey);
    if (current().legal.some((each) => each.name === name)) event.preventDefault();
  };
  const onKeyUp = (event: KeyboardEvent): void => {
    if (!MODIFIERS.includes(event.key) && !down.delete(event.key)) lone.stir(event.timeStamp);
  };
  window.addEventListener('keydown', onKeyDown, { capture: true });
  window.addEventListener('keyup', onKeyUp, { capture: true });
  return () => {
    lone.drop();
    window.removeEventListener('keydown', onKeyDown, { capture: true });
    window.removeEventListener('keyup', onKeyUp, { capture: true });
  };
}

function useKeys(controls: Controls): void {
  const latest = useRef(controls);
  useEffect(() => {
    latest.current = controls;
  });
  useEffect(() => listenForKeys(() => latest.current), []);
}

/** The controls of one screen. */
export function useControls(legal: readonly LegalCommand[], promptKey: string, acts: Pick<Acts, 'command'>): Controls {
  const [state, setState] = useState<PadState>({ promptKey, name: null, typed: NOTHING_TYPED });
  const current = state.promptKey === promptKey ? state : { promptKey, name: null, typed: NOTHING_TYPED };
  const open = openFor(legal, current.name);
  const give = (command: Command | null, by: ByHand): void => {
    if (command === null) return;
    setState({ promptKey, name: null, typed: NOTHING_TYPED });
    acts.command(command, by);
  };
  const controls: Controls = {
    promptKey,
    legal,
    open,
    typed: current.typed,
    type: (typed) => setState({ ...current, typed }),
    press: (each, by) => {
      if (each.input.kind === 'press') give(pressed(each), by);
      else setState({ promptKey, name: each.name, typed: NOTHING_TYPED });
    },
    choose: (number, by, note) => give(open === null ? null : chosen(open, number, note), by),
    enter: (by) => give(open === null ? null : typedCommand(open, current.typed), by),
    close: () => setState({ promptKey, name: null, typed: NOTHING_TYPED }),
  };
  useKeys(controls);
  return controls;
}
