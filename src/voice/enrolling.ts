/** Port: learning how somebody says the commands, so that a speaker scorer can vouch for that person's voice. */
import type { Result } from '../domain/result';
import type { HearingTrouble } from './hearing';
import type { VoiceSample } from '@stowcall/web-speech/core';

/** Why there is no sample. `stopped`: the ear was closed or opened for something else meanwhile. */
export type SampleTrouble = 'not-these-words' | 'too-loud' | 'stopped' | HearingTrouble;

export interface EnrollingPort {
  /** Opens the ear for these words alone and closes it when something was said. What is said then is never a command. */
  sample(words: string): Promise<Result<VoiceSample, SampleTrouble>>;
  /** Ends a `sample` that is still open. */
  stopSampling(): void;
  /** Whose voice may be heard from now on. Empty: nobody's that is known. */
  know(samples: readonly VoiceSample[]): void;
}
