/** Takes the room's noise out of an utterance before the engine hears it. */
import { POINTS, transform, untransform } from './fourier';
import { QUIET_SNR } from '../decision/certainty';
import type { Utterance } from './endpointer';

/** Half of each frame is shared with the next one. */
const HOP = POINTS / 2;
/** Root of a Hann window, for it is applied before and after: together the frames add up to one. */
const WINDOW = Float64Array.from({ length: POINTS }, (_, at) =>
  Math.sqrt(0.5 - 0.5 * Math.cos((2 * Math.PI * (at + 0.5)) / POINTS)),
);
const WINDOW_POWER = WINDOW.reduce((sum, weight) => sum + weight * weight, 0);
/** How much of the last frame's speech is expected in this one. */
const MEMORY = 0.92;
/** No tone is made softer than this: what is cut away wholly sounds like a word of its own. */
const SOFTEST = 0.1;
/** Share of the sound that is left as it is: it hides what the filter makes of faint tones. Measured: see DEVELOPERS.md. */
const RAW = 0.15;
const SILENCE = 1e-10;

/**
 * The utterance with each tone made as soft as the noise has a share in it: Wiener's gain over a signal-to-noise ratio
 * that leans on the last frame's (Ephraim and Malah, IEEE Trans. ASSP 32, 1984, 1109-1121, eq. 51). `noise` is the
 * power of the noise at each point from 0 Hz to half the sample rate.
 */
export function denoise(samples: Float32Array, noise: Float32Array): Float32Array<ArrayBuffer> {
  const out = new Float32Array(samples.length + 2 * POINTS);
  const speech = new Float64Array(POINTS / 2 + 1);
  const real = new Float64Array(POINTS);
  const imaginary = new Float64Array(POINTS);
  for (let start = -HOP; start < samples.length; start += HOP) {
    for (let at = 0; at < POINTS; at += 1) real[at] = (samples[start + at] ?? 0) * (WINDOW[at] ?? 0);
    imaginary.fill(0);
    transform(real, imaginary);
    for (let point = 0; point < speech.length; point += 1) {
      const power = ((real[point] ?? 0) ** 2 + (imaginary[point] ?? 0) ** 2) / WINDOW_POWER;
      const floor = (noise[point] ?? 0) + SILENCE;
      const ratio = (MEMORY * (speech[point] ?? 0)) / floor + (1 - MEMORY) * Math.max(0, power / floor - 1);
      const gain = Math.max(SOFTEST, ratio / (1 + ratio));
      speech[point] = gain * gain * power;
      const kept = RAW + (1 - RAW) * gain;
      for (const mirror of point === 0 || point === POINTS / 2 ? [point] : [point, POINTS - point]) {
        real[mirror] = (real[mirror] ?? 0) * kept;
        imaginary[mirror] = (imaginary[mirror] ?? 0) * kept;
      }
    }
    untransform(real, imaginary);
    for (let at = 0; at < POINTS; at += 1) {
      const place = start + HOP + at;
      out[place] = (out[place] ?? 0) + (real[at] ?? 0) * (WINDOW[at] ?? 0);
    }
  }
  return out.slice(HOP, HOP + samples.length);
}

/** The utterance as the engine hears it: without the room's noise where there is any to speak of. */
export function soundFor({ samples, noise, snr }: Pick<Utterance, 'samples' | 'noise' | 'snr'>): Float32Array {
  return snr < QUIET_SNR ? denoise(samples, noise) : samples;
}
