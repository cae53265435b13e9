/** A description of how something was said: 13 mel cepstra for each 10 ms, without what voice, room and microphone have in common. */
import { SAMPLE_WIDTH } from '../rescoring/voice-sample';
import { POINTS, transform } from './fourier';
import { PRE_EMPHASIS, RATE, STEP, WINDOW } from './frames';
import type { Filter } from './mel';
import { cosineTransform, filterBank } from './mel';

const BANK: readonly Filter[] = filterBank({ lowest: 100, highest: 7000, filters: 26, points: POINTS, rate: RATE });
const HAMMING = Float64Array.from(
  { length: WINDOW },
  (_, at) => 0.54 - 0.46 * Math.cos((2 * Math.PI * at) / (WINDOW - 1)),
);
const SILENCE = 1e-10;
/** Steps before the first and after the last loud one that belong to what was said: a soft "h", the end of an "s". */
const AROUND = 5;

/** The sound of an utterance, and for each 10 ms of it whether it was as loud as speech. */
export interface Said {
  readonly samples: Float32Array;
  readonly loud: readonly boolean[];
}

/** The features of what was said in it; none of the quiet around it. Empty where nothing was loud. */
export function featuresOf({ samples, loud }: Said): Float32Array {
  const first = loud.indexOf(true);
  if (first < 0) return new Float32Array(0);
  const from = Math.max(0, first - AROUND);
  const to = Math.min(loud.length, loud.lastIndexOf(true) + 1 + AROUND);
  return withoutMean(cepstra(samples.subarray(from * STEP, to * STEP)));
}

/** 16 kHz, -1 to 1; frame after frame, `SAMPLE_WIDTH` numbers each. */
export function cepstra(samples: Float32Array): Float32Array {
  const frames = samples.length < WINDOW ? 0 : Math.floor((samples.length - WINDOW) / STEP) + 1;
  const all = new Float32Array(frames * SAMPLE_WIDTH);
  const real = new Float64Array(POINTS);
  const imaginary = new Float64Array(POINTS);
  for (let frame = 0; frame < frames; frame += 1) {
    real.fill(0);
    imaginary.fill(0);
    for (let at = 0; at < WINDOW; at += 1) {
      const place = frame * STEP + at;
      real[at] = ((samples[place] ?? 0) - PRE_EMPHASIS * (samples[place - 1] ?? 0)) * (HAMMING[at] ?? 0);
    }
    transform(real, imaginary);
    const levels = BANK.map(({ first, weights }) => {
      let energy = SILENCE;
      for (const [at, weight] of weights.entries()) {
        energy += weight * ((real[first + at] ?? 0) ** 2 + (imaginary[first + at] ?? 0) ** 2);
      }
      return Math.log(energy);
    });
    all.set(cosineTransform(levels, SAMPLE_WIDTH), frame * SAMPLE_WIDTH);
  }
  return all;
}

/** Takes each coefficient's mean off: that is what microphone, distance and room add to every frame alike. */
function withoutMean(features: Float32Array): Float32Array {
  const frames = features.length / SAMPLE_WIDTH;
  const sums = new Float64Array(SAMPLE_WIDTH);
  for (const [at, value] of features.entries()) sums[at % SAMPLE_WIDTH] = (sums[at % SAMPLE_WIDTH] ?? 0) + value;
  return features.map((value, at) => value - (sums[at % SAMPLE_WIDTH] ?? 0) / frames);
}
