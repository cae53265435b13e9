/** Speech in a room: quiet, or a noise at a stated distance under it, sounding before anybody speaks. */
import { OPEN_SECONDS, withRoom } from './node-listener';
import { mixNoise } from './noise';

/** The recorded noises that the ear is calibrated and measured in. */
export const NOISES = ['exercise_bike', 'pink_noise', 'running_tap'] as const;

export interface Room {
  readonly noise: Float32Array | null;
  /** dB, where there is noise. */
  readonly snr: number;
}

/** The sound in its room, which has been heard for a while when somebody speaks; `seed` chooses the stretch of noise. */
export function soundIn({ noise, snr }: Room, speech: Float32Array, seed: number): Float32Array {
  const quiet = withRoom(speech, OPEN_SECONDS);
  return noise === null ? quiet : mixNoise(quiet, noise, { snr, seed });
}
