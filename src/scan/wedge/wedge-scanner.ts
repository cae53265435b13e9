/**
 * Reads scanners that type like a keyboard (keyboard wedge): their bursts are taken out of the page's key strokes, and
 * typing is given back.
 */
import { ok } from '../../domain/result';
import type { ScannerSettings } from '../../domain/scanning';
import { listeners } from '../../domain/listeners';
import type { RawReading, SightingPort, SightingTrouble } from '../sighting';
import type { KeyStroke } from './key-character';
import { isScan, wedgePause, wedgeStep, WEDGE_DEFAULTS, WEDGE_IDLE } from './wedge-step';
import type { WedgeSettings, WedgeStep } from './wedge-step';

function strokeOf(event: KeyboardEvent): KeyStroke {
  return {
    key: event.key,
    code: event.code,
    shift: event.shiftKey,
    ctrl: event.ctrlKey,
    alt: event.altKey,
    meta: event.metaKey,
    capsLock: event.getModifierState('CapsLock'),
    repeat: event.repeat,
  };
}

function isEditable(target: EventTarget | null): target is HTMLElement {
  if (!(target instanceof HTMLElement)) return false;
  return target.isContentEditable || target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement;
}

/** Gives a stroke that was held back to where it was meant for: first to the page's own handlers, then to the field. */
function replay(event: KeyboardEvent, own: WeakSet<Event>): void {
  const { key, code, shiftKey, ctrlKey, altKey, metaKey, target } = event;
  const again = new KeyboardEvent('keydown', {
    ...{ key, code, shiftKey, ctrlKey, altKey, metaKey },
    bubbles: true,
    cancelable: true,
    composed: true,
  });
  own.add(again);
  const goesOn = target?.dispatchEvent(again) ?? false;
  if (!goesOn || ctrlKey || metaKey || !isEditable(target)) return;
  // Deprecated, and still the only way to type into a field so that undo and the field's own events work.
  if (target.ownerDocument.activeElement === target) target.ownerDocument.execCommand('insertText', false, key);
}

export type WedgeScanner = SightingPort & {
  /** The loft's settings, once they are loaded. */
  configure(settings: ScannerSettings): void;
};

/**
 * Makes the scanner. `target` is the window: its capture phase comes before every handler and field of the page, so a
 * scan never types into a field and never works a key. Typing is held for one gap (35 ms) and then given back. Make
 * the scanner before anything else listens for keys on the same target.
 */
export function createWedgeScanner(target: EventTarget, settings: Partial<WedgeSettings> = {}): WedgeScanner {
  let all: WedgeSettings = { ...WEDGE_DEFAULTS, ...settings };
  const readings = listeners<[RawReading]>();
  const troubles = listeners<[SightingTrouble, string]>();
  const own = new WeakSet<Event>();
  let state = WEDGE_IDLE;
  let held: KeyboardEvent[] = [];
  let timer: ReturnType<typeof setTimeout> | null = null;
  let isOn = false;

  const act = (step: WedgeStep): void => {
    state = step.state;
    const back = step.release ? held : [];
    if (step.release || step.reading !== null || state.text === '') held = [];
    for (const event of back) replay(event, own);
    if (step.reading !== null) readings.tell({ payload: step.reading, symbology: 'unknown', reader: 'wedge' });
  };

  const wait = (): void => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    if (state.text === '') return;
    // Key strokes carry the time at which they happened; the timer may only say that nothing came since. A scan loses
    // nothing by waiting for strokes that are under way; somebody who types would see every character late.
    const limit = isScan(state, all) ? all.pauseMs + all.lateMs : all.gapMs;
    timer = setTimeout(() => {
      act(wedgePause(state, state.lastMs + limit, all));
      wait();
    }, limit);
  };

  const onKey = (event: Event): void => {
    if (!isOn || !(event instanceof KeyboardEvent) || own.has(event) || event.isComposing) return;
    const step = wedgeStep(state, { stroke: strokeOf(event), timeMs: event.timeStamp }, all);
    act(step);
    if (step.swallow) {
      event.preventDefault();
      event.stopImmediatePropagation();
      if (state.text !== '') held.push(event);
    }
    wait();
  };

  // Already now, so that it stands before every handler that the page adds later, whenever `start` is called.
  target.addEventListener('keydown', onKey, { capture: true });

  return {
    configure: (changed) => {
      all = { ...all, ...changed };
    },
    start: () => {
      isOn = true;
      return Promise.resolve(ok(undefined));
    },
    stop: () => {
      isOn = false;
      if (timer !== null) clearTimeout(timer);
      timer = null;
      state = WEDGE_IDLE;
      held = [];
    },
    onReading: readings.add,
    // A keyboard has no troubles that a page could see: unplugged, it is merely silent.
    onTrouble: troubles.add,
  };
}
