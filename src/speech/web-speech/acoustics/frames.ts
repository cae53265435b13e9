/** How the stream of sound is cut before anything is measured in it: steps, windows and pre-emphasis. */

/** Samples in a second of everything that is measured here. */
export const RATE = 16_000;
/** Samples of one step: 10 ms. */
export const STEP = 160;
/** Samples looked at for each step: 25 ms. */
export const WINDOW = 400;

/** Coefficient of the pre-emphasis filter, which raises high tones: speech is softer there. */
export const PRE_EMPHASIS = 0.97;

/** The pre-emphasis filter over a stream, sample after sample. */
export class PreEmphasis {
  #previous = 0;

  filter(sample: number): number {
    const filtered = sample - PRE_EMPHASIS * this.#previous;
    this.#previous = sample;
    return filtered;
  }
}

/** Cuts a stream of sound, which comes in pieces of any length, into steps. */
export class Steps {
  #rest = new Float32Array(0);

  /** The steps that are whole with these samples; what is left over waits for the next. */
  push(samples: Float32Array): readonly Float32Array[] {
    const joined = new Float32Array(this.#rest.length + samples.length);
    joined.set(this.#rest);
    joined.set(samples, this.#rest.length);
    const whole = Math.floor(joined.length / STEP);
    this.#rest = joined.slice(whole * STEP);
    return Array.from({ length: whole }, (_, index) => joined.slice(index * STEP, (index + 1) * STEP));
  }
}
