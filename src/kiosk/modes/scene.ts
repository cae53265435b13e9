/** What is drawn, said and listened for at one moment. */
import type { CommandName } from '../../domain/command';
import type { VoiceExpected } from '../../packing/machine/voices-expected';
import type { AppView } from '../../screens/contract/app-view';
import type { LegalCommand, Prompt } from '../../screens/contract/pack-view';
import type { Opening } from '../conversation';
import type { PinGate } from '../pin/pin-gate';
import { vocabularyOf } from '../vocabulary';

export interface Scene {
  readonly view: AppView;
  /** What is said; null for nothing. */
  readonly prompt: Prompt | null;
  /** What the ear is opened for after the prompt; null for nothing. */
  readonly opening: Opening | null;
  /** Speaking rate; absent for that of the loft. */
  readonly rate?: number;
  /** Where a PIN may be asked for: while it is, its pad lies over the view. */
  readonly pin?: PinGate;
  /** Whose voices are expected; absent for nobody's. */
  readonly voices?: readonly VoiceExpected[];
  /** Commands that are never taken for a touch that was meant for the step before. */
  readonly atOnce?: readonly CommandName[];
}

/** The PIN itself is never spoken, shown or listened for. */
const ASK_PIN = { say: 'Enter your PIN on the pad.', show: 'Enter your PIN on the pad.' };

/** What the ear is opened for where exactly these commands are legal; null where none is. */
export function openingOf(legal: readonly LegalCommand[]): Opening | null {
  return legal.length === 0 ? null : vocabularyOf(legal);
}

/** The scene with the pad for a PIN over it, where one is asked for. */
export function withPinPad(scene: Scene): Scene {
  const pin = scene.pin?.view() ?? null;
  if (pin === null) return scene;
  const prompt = scene.prompt === null ? null : { key: pin.key, ...ASK_PIN };
  return { ...scene, view: { ...scene.view, ...{ pin } }, prompt, opening: null };
}
