/** What the voice needs from below: an engine that renders sentences and an output that plays them. */
import type { Result } from '@stowcall/grammar';
import type { FliteFailure, FliteRequest, FliteVoice } from './flite';
import type { Sound } from './flite-wav';

export interface EngineVoice {
  readonly name: FliteVoice;
  /** BCP 47. */
  readonly lang: string;
}

/** The first is the default. All are English; their names are the engine's own. */
export const ENGINE_VOICES: readonly EngineVoice[] = [
  { name: 'rms', lang: 'en-US' },
  { name: 'slt', lang: 'en-US' },
  { name: 'awb', lang: 'en-GB' },
  { name: 'kal16', lang: 'en-US' },
];

export interface SynthesisEngine {
  /** Loads the engine; safe to call again, also after a failure. */
  prepare(): Promise<Result<void, 'engine-failed'>>;
  render(request: FliteRequest): Promise<Result<Sound, FliteFailure>>;
}

/**
 * How playing came to its end. `ended`: the last sample has left the loudspeaker. `stuck`: the completion signal did
 * not come. `blocked`: the browser lets no sound out before somebody touches the page.
 */
export type PlayEnd = 'ended' | 'stopped' | 'stuck' | 'blocked';

export interface Playing {
  readonly done: Promise<PlayEnd>;
  stop(): void;
  pause(): void;
  resume(): void;
}

export interface SoundOutput {
  /** Seconds on the output's own clock. */
  readonly time: number;
  /** Opens the output; safe to call again, for example after the first touch of the page. */
  prepare(): Promise<Result<void, 'not-allowed' | 'audio-hardware'>>;
  /** Plays one sound. `volume` is 0 to 1; `speed` 2 is twice as fast and an octave higher. */
  play(sound: Sound, how: { readonly volume: number; readonly speed: number }): Playing;
}
