/** Draws and says the scene of the present mode, and tells a touch that was meant for the step before. */
import type { Channel, CommandName } from '../domain/command';
import type { AppView } from '../screens/contract/app-view';
import type { Prompt } from '../screens/contract/pack-view';
import type { Opening } from './conversation';
import { withPinPad, type Scene } from './modes/scene';
import type { KioskParts } from './parts';
import type { PinGate } from './pin/pin-gate';
import { watchable } from './watchable';

export interface PresenterParts {
  readonly parts: Pick<KioskParts, 'nowMs' | 'mark'>;
  /** The loft's speaking rate. */
  readonly rate: () => number;
  /** Says the prompt if it is new, then opens the ear. */
  readonly say: (prompt: Prompt, opening: Opening | null, rate: number) => void;
}

/** A second touch within this time was meant for the step before. */
const TOUCH_DEBOUNCE_MS = 500;

export class Presenter {
  readonly view = watchable<AppView>({ screen: 'loading', text: 'Starting' });
  private scene: Scene | null = null;
  private keyShown = '';
  private shownAtMs = Number.NEGATIVE_INFINITY;

  constructor(private readonly given: PresenterParts) {}

  /** Null: the mode has no scene of its own, and what is drawn stays. */
  present(scene: Scene | null): void {
    this.scene = scene;
    if (scene === null) return;
    const { view, prompt, opening, rate = this.given.rate() } = withPinPad(scene);
    this.view.set(view);
    if (prompt === null) return;
    if (prompt.key !== this.keyShown) {
      this.keyShown = prompt.key;
      this.shownAtMs = this.given.parts.nowMs();
      this.given.parts.mark('screen');
    }
    this.given.say(prompt, opening, rate);
  }

  /** Where a PIN may be asked for now. */
  pin(): PinGate | null {
    return this.scene?.pin ?? null;
  }

  /** Whether a command counts: not from a touch right after the step has changed, and not beside the pad for a PIN. */
  isMeant(name: CommandName, channel: Channel): boolean {
    const isHasty = channel === 'touch' && this.given.parts.nowMs() - this.shownAtMs < TOUCH_DEBOUNCE_MS;
    if (isHasty && this.scene?.atOnce?.includes(name) !== true) return false;
    return (this.pin()?.view() ?? null) === null;
  }
}
