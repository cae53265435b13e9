/** How certain the ear must be, by how loud the room is and how long a word was said. */
import type { Decoding } from './recognition-decoding';
import type { LoopCosts } from './recognition-network';

export interface Certainty {
  /** For the first search, which finds what may have been said. */
  readonly finding: LoopCosts;
  /** For the second, in which it must win again although it is made dearer. */
  readonly proving: LoopCosts;
  /** By how much a phrase must lead over everything else, as a natural logarithm. */
  readonly lead: number;
}

/** Speech that stands this many dB over the room is as good as quiet, and below this it is as bad as it gets. */
export const QUIET_SNR = 25;
export const NOISY_SNR = 15;
/** Below this a refusal is put down to the noise. */
export const LOUD_SNR = 12;
/** Below this nothing is searched for: measured, at 6 dB every fifth word was another. */
export const DEAF_SNR = 5;

/**
 * Natural logarithms. Measured in quiet: commands of three voices lie at most 50 behind the loop, one-syllable words
 * of 30 people with hardly an exception at most 110; talk lies 300 and more behind it, a word that rhymes 110.
 */
const QUIET_ALONE = 100;
/** The one wrong word of 59 in quiet led by 18. */
const QUIET_LEAD = 20;

/**
 * Measured at 12 dB: wrong one-syllable words begin 85 behind the loop, and talk 170. Phrases with a long word may
 * lie further behind it: what is left of the noise is more like some sounds than like words, but never like a long one.
 */
const NOISY_SHORT_ALONE = 80;
const NOISY_ALONE_MAX = 160;
const SHORT_PHONES = 5;
const PHONE_WORTH = 20;
/** Wrong values led by up to 24. */
const NOISY_LEAD = 25;

/** `snr` in dB; `phones` of the longest word that was found, 0 where nothing is known of it yet. */
export function certaintyFor(snr: number, phones: number): Certainty {
  const noise = Math.min(1, Math.max(0, (QUIET_SNR - snr) / (QUIET_SNR - NOISY_SNR)));
  const between = (quiet: number, noisy: number): number => quiet + (noisy - quiet) * noise;
  const longer = Math.max(0, phones - SHORT_PHONES) * PHONE_WORTH;
  const noisyAlone = phones === 0 ? NOISY_ALONE_MAX : Math.min(NOISY_ALONE_MAX, NOISY_SHORT_ALONE + longer);
  return {
    finding: loopCosts(between(QUIET_ALONE, NOISY_ALONE_MAX)),
    proving: loopCosts(between(QUIET_ALONE, noisyAlone)),
    lead: between(QUIET_LEAD, NOISY_LEAD),
  };
}

/** After a phrase the loop costs this much more than alone. */
const AFTER_MORE = 40;

function loopCosts(alone: number): LoopCosts {
  return { alone, after: alone + AFTER_MORE, phone: 1 };
}

/**
 * Sounds of the longest word that was found. Not of all words: short ones in a row, as in "four and three eighths",
 * fit themselves to anything.
 */
export function phonesIn({ segments }: Decoding): number {
  return segments.reduce((most, { phones }) => Math.max(most, phones), 0);
}
