/**
 * How certain the ear must be, by how loud the room is, how long a word was said, and how much harm a mistake can do.
 * The thresholds are data: `npm run calibrate` measures and writes them.
 */
import type { Risk } from './risk';
import enrolled from '../rescoring/weight.json' with { type: 'json' };
import calibrated from './certainty.json' with { type: 'json' };
import type { Decoding } from '../engine/decoding';
import type { LoopCosts } from '../engine/network';

/** All as natural logarithms. */
export interface Thresholds {
  /** How far a phrase may lie behind the phone loop where the room is quiet. */
  readonly quietAlone: number;
  /** By how much it must lead over every other phrase there. */
  readonly quietLead: number;
  /** The same in noise, for a phrase whose longest word is short. */
  readonly noisyShortAlone: number;
  /**
   * The same for one with a long word, at most: what is left of the noise is more like some sounds than like words,
   * but never like a long one.
   */
  readonly noisyAloneMax: number;
  readonly noisyLead: number;
  /** The same where speech hardly stands out from the noise. */
  readonly loudShortAlone: number;
  readonly loudLead: number;
}

export const THRESHOLDS: Readonly<Record<Risk, Thresholds>> = calibrated.thresholds;

/** What the comparison with a person's own samples is worth in the engine's logarithms; `npm run calibrate:enrolment`. */
export const TEMPLATE_WEIGHT: number = enrolled.weight;

/** What a phrase that was found must stand up to: it is made dearer in the second search and must win again. */
export interface Proof {
  /** How far it may lie behind the loop. */
  readonly alone: number;
  /** By how much it must lead over every other phrase. */
  readonly lead: number;
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

/** Costs of the loop in the first search, which finds what may have been said: as lax as any proof. `snr` in dB. */
export function findingFor(snr: number, of: Readonly<Record<Risk, Thresholds>> = THRESHOLDS): LoopCosts {
  const most = (one: 'quietAlone' | 'noisyAloneMax'): number => Math.max(of.low[one], of.high[one]);
  return loopCosts(between(most('quietAlone'), most('noisyAloneMax'), snr));
}

/** What a phrase must stand up to. `snr` in dB; `phones` of the longest word that was found. */
export function proofFor(of: Thresholds, snr: number, phones: number): Proof {
  const longer = Math.max(0, phones - SHORT_PHONES) * PHONE_WORTH;
  const alone = (short: number): number => Math.min(of.noisyAloneMax, short + longer);
  if (snr >= LOUD_SNR) {
    return {
      alone: between(of.quietAlone, alone(of.noisyShortAlone), snr),
      lead: between(of.quietLead, of.noisyLead, snr),
    };
  }
  const loudness = shareOf(LOUD_SNR, LOUDEST_SNR, snr);
  return {
    alone: mixed(alone(of.noisyShortAlone), alone(of.loudShortAlone), loudness),
    lead: mixed(of.noisyLead, of.loudLead, loudness),
  };
}

/**
 * By how much a rival must be the better path to stand against a phrase: it may be one word more of the same sound.
 * Measured on 114 recorded number strings that are no lengths: 50 were taken for lengths without rivals, 4 with rivals
 * up to 10 (those four have a pause after a figure that is one), 6 at 14, 7 at 17.
 */
export const RIVALS_LEAD = 10;

/** A speaker scorer may ease or harden a proof by no more than this. */
export const SUPPORT_MAX = 60;
/** A phrase may always lie this far behind the loop, and none may lead by less. */
const ALONE_LEAST = 20;
const LEAD_LEAST = 5;
/** The lead changes by this share of what the distance to the loop changes. */
const LEAD_SHARE = 0.5;

/**
 * The proof after a speaker scorer has spoken for the phrase (`support` above 0) or against it: the engine's margins and the
 * support add up. Never laxer than the search that found the phrase: what the engine refuses there stays refused.
 */
export function supportedBy({ alone, lead }: Proof, support: number, finding: LoopCosts): Proof {
  if (support === 0) return { alone, lead };
  const eased = Math.min(SUPPORT_MAX, Math.max(-SUPPORT_MAX, support));
  return {
    alone: Math.max(ALONE_LEAST, Math.min(finding.alone, alone + eased)),
    lead: Math.max(LEAD_LEAST, lead - LEAD_SHARE * eased),
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

/** After a phrase the loop costs this much more than alone. */
const AFTER_MORE = 40;

/** The loop in the second search: the phrase is dearer by the lead there, and the loop as well, so each is asked alone. */
export function provingFor({ alone, lead }: Proof): LoopCosts {
  return loopCosts(alone + lead);
}

/** The loop at this cost; all else follows from it. */
export function loopCosts(alone: number): LoopCosts {
  return { alone, after: alone + AFTER_MORE, phone: 1 };
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
 * 12 dB: in 90 recordings of other speech no fixed phrase was found even by the laxest search.
 */
export function allPhonesIn({ segments }: Decoding): number {
  return segments.reduce((sum, { phones }) => sum + phones, 0);
}
