/** The made voices of the bench: those of the page's own engine and of Debian's festival, at several speeds and pitches. */
import type { FliteVoice } from '@stowcall/web-speech/flite';

/** What festival's packages call them (festvox-kallpc16k, festvox-kdlpc16k, festvox-us-slt-hts). */
export const FESTIVAL_VOICES = ['kal_diphone', 'ked_diphone', 'cmu_us_slt_arctic_hts'] as const;
export type FestivalVoice = (typeof FESTIVAL_VOICES)[number];

interface Manner {
  /** In tables. */
  readonly name: string;
  /** 1 = as made, 2 = half as fast. */
  readonly stretch: number;
  /** Mean pitch in Hz; null: as made. */
  readonly pitchHz: number | null;
}

export type MadeVoice = Manner &
  (
    | { readonly engine: 'flite'; readonly voice: FliteVoice }
    | { readonly engine: 'festival'; readonly voice: FestivalVoice }
  );

/**
 * Seven voices of five people as they were made, then the same faster or slower, higher or deeper. The page's engine
 * cannot change the pitch of "rms".
 */
export const MADE_VOICES: readonly MadeVoice[] = [
  { name: 'slt', engine: 'flite', voice: 'slt', stretch: 1, pitchHz: null },
  { name: 'awb', engine: 'flite', voice: 'awb', stretch: 1, pitchHz: null },
  { name: 'kal16', engine: 'flite', voice: 'kal16', stretch: 1, pitchHz: null },
  { name: 'rms', engine: 'flite', voice: 'rms', stretch: 1, pitchHz: null },
  { name: 'kal-diphone', engine: 'festival', voice: 'kal_diphone', stretch: 1.1, pitchHz: null },
  { name: 'ked-diphone', engine: 'festival', voice: 'ked_diphone', stretch: 1.1, pitchHz: null },
  { name: 'slt-hts', engine: 'festival', voice: 'cmu_us_slt_arctic_hts', stretch: 1, pitchHz: null },
  { name: 'slt-fast-high', engine: 'flite', voice: 'slt', stretch: 0.85, pitchHz: 205 },
  { name: 'awb-slow-deep', engine: 'flite', voice: 'awb', stretch: 1.2, pitchHz: 110 },
  { name: 'kal16-slow-high', engine: 'flite', voice: 'kal16', stretch: 1.2, pitchHz: 125 },
  { name: 'rms-fast', engine: 'flite', voice: 'rms', stretch: 0.85, pitchHz: null },
  { name: 'ked-fast-high', engine: 'festival', voice: 'ked_diphone', stretch: 0.95, pitchHz: 130 },
];
