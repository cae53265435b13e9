/**
 * Measures how much a speaker scorer must say for a phrase before the ear obeys it, and what it does say. Searches that were
 * made once are kept in a file.
 */
import { z } from 'zod';
import { featuresOf } from '../acoustics/cepstra';
import type { SpeakerScorer } from '../rescoring/speaker-scorer';
import type { Automaton } from '../engine/automaton';
import {
  DEAF_SNR,
  firstPassFor,
  phonesIn,
  marginsFor,
  secondPassFor,
  supportedBy,
  THRESHOLDS,
} from '../decision/certainty';
import { soundFor } from '../acoustics/denoise';
import type { Utterance } from '../acoustics/endpointer';
import type { RecognitionEngine } from '../engine/engine';
import { networkOf } from '../engine/network';
import { phraseOf } from '../decision/verdict';
import { KeptSearches } from './kept-searches';
import { onlyUtterance } from './utterances-in';

/** Support at which is tried whether the phrase wins, rising; the last is the most that a speaker scorer may give. */
const SUPPORTS = [-30, -20, -10, 0, 10, 20, 30, 40, 60];

const foundSchema = z.object({
  phrase: z.string(),
  /** The least support with which it wins; null where none of those that are tried is enough. */
  needed: z.number().nullable(),
});
type Found = z.infer<typeof foundSchema>;

export interface EnrolledMeterOptions {
  readonly engine: RecognitionEngine;
  readonly automaton: Automaton;
  readonly cache: string;
  /** Kept searches of another state of the ear are forgotten. */
  readonly of: string;
}

export class EnrolledMeter {
  readonly #options: EnrolledMeterOptions;
  readonly #kept: KeptSearches<Found | null>;

  constructor(options: EnrolledMeterOptions) {
    this.#options = options;
    this.#kept = new KeptSearches({ row: foundSchema.nullable(), file: options.cache, of: options.of });
  }

  save(): void {
    this.#kept.save();
  }

  /** What the engine finds in a sound, and what the ears of `ears` say for it; null where it finds nothing. */
  measure(name: string, make: () => Float32Array, ear: SpeakerScorer | null): (Found & { score: number }) | null {
    const { sounds } = this.#kept;
    let utterance: Utterance | null = null;
    if (!(name in sounds)) {
      utterance = onlyUtterance(make());
      sounds[name] = utterance === null ? null : this.#find(utterance);
    }
    const found = sounds[name] ?? null;
    if (found === null) return null;
    if (found.needed === null || ear === null) return { ...found, score: 0 };
    utterance ??= onlyUtterance(make());
    const features = utterance === null ? null : featuresOf({ samples: soundFor(utterance), loud: utterance.loud });
    return { ...found, score: features === null ? 0 : (ear.scores(features, [found.phrase])[0] ?? 0) };
  }

  #find(utterance: Utterance): Found | null {
    const { engine, automaton } = this.#options;
    const { snr, loud } = utterance;
    if (snr < DEAF_SNR) return null;
    const sound = soundFor(utterance);
    const firstPass = firstPassFor(snr);
    engine.use(networkOf(automaton, firstPass));
    const decoding = engine.decode(sound);
    const phrase = phraseOf(decoding, automaton, loud);
    if (decoding === null || phrase === null) return null;
    const margins = marginsFor(THRESHOLDS.high, snr, phonesIn(decoding));
    const wins = (support: number): boolean => {
      const eased = supportedBy(margins, support, firstPass);
      engine.use(
        networkOf(automaton, secondPassFor(eased), { handicap: { words: decoding.words, cost: eased.rival } }),
      );
      return phraseOf(engine.decode(sound), automaton, loud) === phrase;
    };
    return { phrase, needed: leastOf(SUPPORTS, wins) };
  }
}

/** The first of these at which it holds, where it holds for all that follow too. */
function leastOf(rising: readonly number[], holds: (value: number) => boolean): number | null {
  let [low, high] = [-1, rising.length];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (holds(rising[middle] ?? 0)) high = middle;
    else low = middle;
  }
  return rising[high] ?? null;
}
