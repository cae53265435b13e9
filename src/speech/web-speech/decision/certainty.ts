/**
 * How certain the ear must be, by how loud the room is, how long a word was said, and how much harm a mistake can do.
 * The thresholds are data: `npm run calibrate` measures and writes them.
 */
import type { Risk } from './risk';
import enrolled from '../rescoring/weight.json' with { type: 'json' };
import calibrated from './certainty.json' with { type: 'json' };
import type { Decoding } from '../engine/decoding';
import type { FillerCosts } from '../engine/network';

/** All as natural logarithms. */
export interface Thresholds {
  /** How far a phrase may lie behind the filler model where the room is quiet. */
  readonly quietFiller: number;
  /** The margin that it must have over every other phrase there. */
  readonly quietRival: number;
  /** The same in noise, for a phrase whose longest word is short. */
  readonly noisyShortFiller: number;
  /**
   * The same for one with a long word, at most: what is left of the noise is more like some sounds than like words,
   * but never like a long one.
   */
  readonly noisyFillerMax: number;
  readonly noisyRival: number;
  /** The same where speech hardly stands out from the noise. */
  readonly loudShortFiller: number;
  readonly loudRival: number;
}

export const THRESHOLDS: Readonly<Record<Risk, Thresholds>> = calibrated.thresholds;

/** What the comparison with a person's own samples is worth in the engine's logarithms; `npm run calibrate:enrolment`. */
export const TEMPLATE_WEIGHT: number = enrolled.weight;

/** What the first pass found is accepted only within these margins: it is made dearer in the second pass and must win again. */
export interface Margins {
  /** How far it may lie behind the filler model. */
  readonly filler: number;
  /** By how much it must be better than every other phrase. */
  readonly rival: number;
}

/** Speech that stands this many dB over the room is as good as quiet, and from this on down it is in noise. */
export const QUIET_SNR = 25;
export const NOISY_SNR = 15;
/** Below this a refusal is put down to the noise, and the ear must be surer still, until it is surest. */
export const LOUD_SNR = 12;
export const LOUDEST_SNR = 8;
/** Below this nothing is searched for: measured, at 6 dB every fifth word was another. */
export const DEAF_SNR = 5;

/** Sounds of a word up to which it is short, and what each further one is worth in noise. */
const SHORT_PHONES = 5;
const PHONE_WORTH = 20;

/** Costs of the filler model in the first pass, which finds what may have been said: as lax as any margin. `snr` in dB. */
export function firstPassFor(snr: number, of: Readonly<Record<Risk, Thresholds>> = THRESHOLDS): FillerCosts {
  const most = (one: 'quietFiller' | 'noisyFillerMax'): number => Math.max(of.low[one], of.high[one]);
  return fillerCosts(between(most('quietFiller'), most('noisyFillerMax'), snr));
}

/** The margins within which a phrase is accepted. `snr` in dB; `phones` of the longest word that was found. */
export function marginsFor(of: Thresholds, snr: number, phones: number): Margins {
  const longer = Math.max(0, phones - SHORT_PHONES) * PHONE_WORTH;
  const filler = (short: number): number => Math.min(of.noisyFillerMax, short + longer);
  if (snr >= LOUD_SNR) {
    return {
      filler: between(of.quietFiller, filler(of.noisyShortFiller), snr),
      rival: between(of.quietRival, of.noisyRival, snr),
    };
  }
  const loudness = shareOf(LOUD_SNR, LOUDEST_SNR, snr);
  return {
    filler: mixed(filler(of.noisyShortFiller), filler(of.loudShortFiller), loudness),
    rival: mixed(of.noisyRival, of.loudRival, loudness),
  };
}

/**
 * By how much a rival must be the better path to stand against a phrase: it may be one word more of the same sound.
 * Measured on 114 recorded number strings that are no lengths: 50 were taken for lengths without rivals, 4 with rivals
 * up to 10 (those four have a pause after a figure that is one), 6 at 14, 7 at 17.
 */
export const RIVAL_COST = 10;

/** A speaker scorer may ease or harden a margin by no more than this. */
export const SUPPORT_MAX = 60;
/** A phrase may always lie this far behind the filler model, and none may be better than others by less. */
const FILLER_LEAST = 20;
const RIVAL_LEAST = 5;
/** The margin over other phrases changes by this share of what that behind the filler model changes. */
const RIVAL_SHARE = 0.5;

/**
 * The margins after a speaker scorer has spoken for the phrase (`support` above 0) or against it: the engine's margins and the
 * support add up. Never laxer than the pass that found the phrase: what the engine refuses there stays refused.
 */
export function supportedBy({ filler, rival }: Margins, support: number, firstPass: FillerCosts): Margins {
  if (support === 0) return { filler, rival };
  const eased = Math.min(SUPPORT_MAX, Math.max(-SUPPORT_MAX, support));
  return {
    filler: Math.max(FILLER_LEAST, Math.min(firstPass.start, filler + eased)),
    rival: Math.max(RIVAL_LEAST, rival - RIVAL_SHARE * eased),
  };
}

function between(quiet: number, noisy: number, snr: number): number {
  return mixed(quiet, noisy, shareOf(QUIET_SNR, NOISY_SNR, snr));
}

/** How far `snr` lies on the way from the one to the other, 0 to 1. */
function shareOf(from: number, to: number, snr: number): number {
  return Math.min(1, Math.max(0, (from - snr) / (from - to)));
}

function mixed(one: number, other: number, share: number): number {
  return one + (other - one) * share;
}

/** After a phrase the filler model costs this much more than at the start. */
const AFTER_MORE = 40;

/** The filler model in the second pass: the phrase is dearer by its margin there, and the filler as well, so that each is asked by itself. */
export function secondPassFor({ filler, rival }: Margins): FillerCosts {
  return fillerCosts(filler + rival);
}

/** The filler model at this cost; all else follows from it. */
export function fillerCosts(filler: number): FillerCosts {
  return { start: filler, after: filler + AFTER_MORE, phone: 1 };
}

/**
 * Sounds of the longest word that was found, for a phrase with a slot. Not of all words: short ones in a row, as in
 * "four and three eighths", fit themselves to anything.
 */
export function phonesIn({ segments }: Decoding): number {
  return segments.reduce((most, { phones }) => Math.max(most, phones), 0);
}

/**
 * Sounds of all that was found, for a fixed phrase: its words come together or not at all. Measured in three noises at
 * 12 dB: in 90 recordings of other speech no fixed phrase was found even by the laxest pass.
 */
export function allPhonesIn({ segments }: Decoding): number {
  return segments.reduce((sum, { phones }) => sum + phones, 0);
}
