/** Quiet, or a noise at a stated distance under the speech, with the room sounding before anybody speaks. */
import { SAMPLE_RATE } from '../../../voice/web-speech/recognition-engine';
import { mixNoise } from '../speech/noise';

export const NOISES = ['exercise_bike', 'pink_noise', 'running_tap'] as const;

/** The kiosk has heard its room for a while when somebody speaks: noise begins with the stream. */
const LEAD_SECONDS = 2;
/** More than the pause that ends an utterance. */
const TAIL_SECONDS = 0.6;

export interface Condition {
  readonly name: string;
  readonly noise: Float32Array | null;
  /** dB, where there is noise. */
  readonly snr: number;
  /** Of what could be said each so manieth is, others in each condition: a bench of everything takes hours. */
  readonly every: number;
}

/** `quiet` or `NOISE@DB`, and `/N` behind it for each Nth saying. Throws for anything else. */
export function parseCondition(text: string, read: (noise: string) => Float32Array): Condition {
  const [, name = '', noise, snr, every = '1'] = /^(quiet|(\w+)@(\d+(?:\.\d+)?))(?:\/([1-9]\d*))?$/.exec(text) ?? [];
  if (name === '') throw new Error(`"${text}" is no condition: write quiet, pink_noise@12, or pink_noise@12/3`);
  if (noise === undefined) return { name, noise: null, snr: Number.POSITIVE_INFINITY, every: Number(every) };
  return { name, noise: read(noise), snr: Number(snr), every: Number(every) };
}

/** The sound in its room; `seed` chooses the stretch of noise. */
export function soundIn({ noise, snr }: Condition, speech: Float32Array, seed: number): Float32Array {
  const quiet = new Float32Array(speech.length + Math.round((LEAD_SECONDS + TAIL_SECONDS) * SAMPLE_RATE));
  quiet.set(speech, LEAD_SECONDS * SAMPLE_RATE);
  return noise === null ? quiet : mixNoise(quiet, noise, snr, seed);
}
