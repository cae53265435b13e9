/** Speech in noise at a stated signal-to-noise ratio, the same every time for the same seed. */

/** Samples of the frames whose loudest counts: the rule of the noise recordings' readme. */
const FRAME = 2048;

/** How loud the noise is, and which stretch of it. */
export interface NoiseAt {
  /** Decibels between the loudest frames of speech and noise. */
  readonly snr: number;
  readonly seed: number;
}

/**
 * `speech` with noise over all of it. The noise is a stretch of `noise` that the seed chooses, scaled so that the
 * loudest frame of the speech stands `snr` dB over the loudest frame of that stretch. Both -1 to 1 at one sample rate.
 */
export function mixNoise(speech: Float32Array, noise: Float32Array, { snr, seed }: NoiseAt): Float32Array {
  if (noise.length < speech.length) throw new Error('the noise is shorter than the speech');
  const from = Math.floor(fractionOf(seed) * (noise.length - speech.length));
  const stretch = noise.subarray(from, from + speech.length);
  const gain = loudestFrame(speech) / loudestFrame(stretch) / 10 ** (snr / 20);
  return speech.map((sample, index) => sample + gain * (stretch[index] ?? 0));
}

/** Root mean square of the loudest frame. */
function loudestFrame(samples: Float32Array): number {
  let loudest = 0;
  for (let at = 0; at < samples.length; at += FRAME) {
    const frame = samples.subarray(at, at + FRAME);
    if (frame.length < FRAME && at > 0) break;
    let sum = 0;
    for (const sample of frame) sum += sample * sample;
    loudest = Math.max(loudest, Math.sqrt(sum / frame.length));
  }
  return Math.max(loudest, 1e-9);
}

/** 0 to 1, spread evenly over the seeds (the first output of mulberry32). */
function fractionOf(seed: number): number {
  let t = (seed + 0x6d2b79f5) | 0;
  t = Math.imul(t ^ (t >>> 15), t | 1);
  t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
  return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
}
