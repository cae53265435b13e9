/** The sound's level in each of 16 mel bands, step by step: what the endpointer and the noise floor work on. */
import { POINTS, transform } from './fourier';
import { RATE, STEP, WINDOW } from './frames';
import { melEdges } from './mel';

export const BANDS = 16;

const LOWEST_HZ = 150;
const HIGHEST_HZ = 7_000;
const SILENCE = 1e-10;

/** First point of each band and, at the end, one past the last. */
const EDGES = melEdges({ lowest: LOWEST_HZ, highest: HIGHEST_HZ, filters: BANDS, points: POINTS, rate: RATE });
const HANN = Float64Array.from(
  { length: WINDOW },
  (_, at) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (at + 0.5)) / WINDOW),
);
const HANN_POWER = HANN.reduce((sum, weight) => sum + weight * weight, 0);

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
