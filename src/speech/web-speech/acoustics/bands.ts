/** How loud each of 16 bands of tones is, step by step: what the ear's own judgement of a sound begins with. */
import { POINTS, transform } from './fourier';

/** Samples of one step of 10 ms. */
export const STEP = 160;
export const BANDS = 16;

/** Samples looked at for each step: 25 ms, of which the step is the last part. */
const WINDOW = 400;
const RATE = 16_000;
const LOWEST_HZ = 150;
const HIGHEST_HZ = 7_000;
const SILENCE = 1e-10;

const mel = (hz: number): number => 1127 * Math.log(1 + hz / 700);
const hertz = (mels: number): number => 700 * (Math.exp(mels / 1127) - 1);

/** First point of each band and, at the end, one past the last: equal steps on the mel scale. */
const EDGES = Array.from({ length: BANDS + 1 }, (_, band) => {
  const mels = mel(LOWEST_HZ) + ((mel(HIGHEST_HZ) - mel(LOWEST_HZ)) * band) / BANDS;
  return Math.round((hertz(mels) / RATE) * POINTS);
});
const HANN = Float64Array.from(
  { length: WINDOW },
  (_, at) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (at + 0.5)) / WINDOW),
);
const HANN_POWER = HANN.reduce((sum, weight) => sum + weight * weight, 0);

/** High tones are raised by this much before loudness or shape is measured: speech is softer there. */
export const RAISED = 0.97;

/** Raises the high tones of a stream, sample after sample. */
export class HighTones {
  #previous = 0;

  raised(sample: number): number {
    const raised = sample - RAISED * this.#previous;
    this.#previous = sample;
    return raised;
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

/** The tones of one step. */
export interface Tones {
  /** dB of each band, such that white noise has in each band its power below full scale. */
  readonly levels: Float32Array;
  /** Power at each point from 0 Hz to half the sample rate, by the same measure but no logarithm. */
  readonly powers: Float32Array;
}

export class Bands {
  readonly #window = new Float32Array(WINDOW);
  readonly #real = new Float64Array(POINTS);
  readonly #imaginary = new Float64Array(POINTS);

  /** The tones after the next step. */
  step(samples: Float32Array): Tones {
    this.#window.copyWithin(0, STEP);
    this.#window.set(samples, WINDOW - STEP);
    this.#real.fill(0);
    this.#imaginary.fill(0);
    for (const [at, sample] of this.#window.entries()) this.#real[at] = sample * (HANN[at] ?? 0);
    transform(this.#real, this.#imaginary);
    const powers = new Float32Array(POINTS / 2 + 1);
    for (let point = 0; point < powers.length; point += 1) {
      powers[point] = ((this.#real[point] ?? 0) ** 2 + (this.#imaginary[point] ?? 0) ** 2) / HANN_POWER;
    }
    const levels = Float32Array.from({ length: BANDS }, (_, band) => levelOf(powers, band));
    return { levels, powers };
  }
}

function levelOf(powers: Float32Array, band: number): number {
  const from = EDGES[band] ?? 0;
  const to = Math.max(from + 1, EDGES[band + 1] ?? 0);
  let power = 0;
  for (let point = from; point < to; point += 1) power += powers[point] ?? 0;
  return 10 * Math.log10(power / (to - from) + SILENCE);
}
