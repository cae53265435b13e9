/** The delay of the loudspeaker, measured with a chime: for so long the ear stays shut after the voice has ended. */
import type { Loudspeaker } from '../../domain/loft';

/** Plays a chime and listens for it: milliseconds until it was heard beyond what the browser tells; null for not heard. */
export type MeasureDelay = () => Promise<number | null>;

/**
 * Where no chime was heard nobody knows how late the voice is, or whether the microphone can hear it at all. Network
 * loudspeakers are late by about a second: the ear stays shut for that and a little more.
 */
export const UNKNOWN_MS = 1_200;
/** The clocks of page and sound differ by this much. */
const MARGIN_MS = 60;
/** From here on it is worth a line on the screen. */
const LATE_MS = 250;

export interface LoudspeakerDelay {
  /** Milliseconds for which the ear stays shut after the voice says that it is done. */
  readonly guardMs: number;
  /** What that means, for the self-check; empty where there is nothing to say. */
  readonly text: string;
}

/** Before anything was measured. */
export const NOT_MEASURED: LoudspeakerDelay = { guardMs: UNKNOWN_MS, text: '' };

/** What the loft says of its loudspeaker, or what the chime tells. Never throws: what cannot be measured is unknown. */
export async function delayOf(kind: Loudspeaker, measure: MeasureDelay): Promise<LoudspeakerDelay> {
  if (kind === 'headset') return { guardMs: 0, text: '' };
  const ms = await measure().catch(() => null);
  if (ms === null) {
    const seconds = (UNKNOWN_MS / 1_000).toFixed(1);
    return {
      guardMs: UNKNOWN_MS,
      text: `The chime was not heard: the loudspeaker is off, or a headset is worn. The kiosk listens ${seconds} s after it has spoken; for a headset, set "loudspeaker: headset" in loft.yaml.`,
    };
  }
  const seconds = (ms / 1_000).toFixed(1);
  return {
    guardMs: ms + MARGIN_MS,
    text: ms < LATE_MS ? '' : `The loudspeaker answers ${seconds} s late: the kiosk listens later.`,
  };
}
