/** Port: where voice samples are kept between packs, each under its owner, who is a digest and no name. */
import type { Result } from '../domain/result';
import type { VoiceSample } from '@stowcall/web-speech/core';

/** `full`: no room on the disk. `crowded`: as many people as the sample store takes. `newer`: written by a later version. */
export type SampleStoreTrouble = 'denied' | 'full' | 'crowded' | 'newer' | 'unavailable';

export interface KeptVoice {
  readonly samples: readonly VoiceSample[];
  /** What lies there and cannot be used, in words; it is passed over, and goes when the owner's voice is erased. */
  readonly skipped: readonly string[];
}

/** At most so many people, and so many samples of each. */
export const PEOPLE_MAX = 200;
export const SAMPLES_MAX = 40;

export interface VoiceSampleStore {
  /** What is kept of this owner; empty for nobody. */
  find(owner: string): Promise<Result<KeptVoice, SampleStoreTrouble>>;
  /** Keeps these in the place of whatever was kept of this owner; all of it or nothing, and durably. */
  keep(owner: string, samples: readonly VoiceSample[]): Promise<Result<void, SampleStoreTrouble>>;
  /** Nothing of this owner is left when it comes back. Erasing nobody is no trouble. */
  erase(owner: string): Promise<Result<void, SampleStoreTrouble>>;
  /** Erases everybody but these, and what belongs to nobody: who has left the loft leaves no voice behind. */
  eraseOthers(owners: readonly string[]): Promise<Result<void, SampleStoreTrouble>>;
}
