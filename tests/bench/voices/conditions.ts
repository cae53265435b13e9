/** Quiet, or a noise at a stated distance under the speech, with the room sounding before anybody speaks. */
import { OPEN_SECONDS, withRoom } from '../../../src/tools/hear';
import { mixNoise } from '../speech/noise';

export const NOISES = ['exercise_bike', 'pink_noise', 'running_tap'] as const;

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

/** The sound in its room, which has been heard for a while when somebody speaks; `seed` chooses the stretch of noise. */
export function soundIn(
  { noise, snr }: Pick<Condition, 'noise' | 'snr'>,
  speech: Float32Array,
  seed: number,
): Float32Array {
  const quiet = withRoom(speech, OPEN_SECONDS);
  return noise === null ? quiet : mixNoise(quiet, noise, snr, seed);
}
