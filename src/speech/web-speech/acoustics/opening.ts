/** What sounds just before the ear opens: whoever speaks then is not heard whole. */
import { Bands } from './bands';
import { PreEmphasis, STEP, Steps } from './frames';
import { ENDPOINTER } from './endpointer';
import type { NoiseFloor } from './noise-floor';

/** Steps that are looked back upon, and how many loud ones among them are speech. */
const LOOKED_AT = 12;
const LOUD_STEPS = 3;
/** A sound that begins this soon after the opening may go on from before it: gaps in words last no longer. */
const GAP_STEPS = 9;

/** The moment at which the ear opens, and what came before it. */
export class Opening {
  readonly #at: number;
  readonly #bands = new Bands();
  readonly #steps = new Steps();
  readonly #preEmphasis = new PreEmphasis();
  #loud: boolean[] = [];

  /** `at` is the position of the first sample that is listened to. */
  constructor(at: number) {
    this.#at = at;
  }

  get at(): number {
    return this.#at;
  }

  /** Takes sound from before it, in order. */
  push(samples: Float32Array, room: NoiseFloor): void {
    for (const step of this.#steps.push(samples)) {
      const { levels } = this.#bands.step(step);
      // The endpointer hears after pre-emphasis, this with and without: in doubt something was being said.
      const raised = step.map((sample) => this.#preEmphasis.filter(sample));
      const loudness = Math.max(decibelsOf(step), decibelsOf(raised));
      this.#loud.push(loudness > ENDPOINTER.softest && room.prominence(levels) > ENDPOINTER.prominence);
    }
    this.#loud = this.#loud.slice(-LOOKED_AT);
  }

  /** Whether a sound that begins at this position may have begun before the ear was open. The stream's begin is none. */
  cuts(position: number): boolean {
    if (this.#at === 0) return false;
    if (position <= this.#at) return true;
    const isSpoken = this.#loud.filter(Boolean).length >= LOUD_STEPS;
    return isSpoken && position <= this.#at + GAP_STEPS * STEP;
  }
}

function decibelsOf(samples: Float32Array): number {
  let sum = 0;
  for (const sample of samples) sum += sample * sample;
  return 10 * Math.log10(sum / samples.length + 1e-10);
}
