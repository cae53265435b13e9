/** Port: the voice. */
import type { Result } from '../domain/result';

export type SpeakingTrouble = 'engine' | 'noAudio';

export interface SpeakingPort {
  prepare(): Promise<Result<void, SpeakingTrouble>>;
  /** Speaks, replacing anything being spoken. Resolves `done` when the last sound has been played, `stopped` if cut off. */
  say(text: string, rate: number): Promise<'done' | 'stopped' | 'failed'>;
  stop(): void;
}
