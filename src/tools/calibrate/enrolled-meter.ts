/**
 * Measures how much a second ear must say for a phrase before the ear obeys it, and what it does say. Searches that were
 * made once are kept in a file.
 */
import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { z } from 'zod';
import { featuresOf } from '../../voice/second-ear/features';
import type { SecondEar } from '../../voice/second-ear/second-ear';
import type { Automaton } from '../../voice/web-speech/recognition-automaton';
import {
  DEAF_SNR,
  findingFor,
  phonesIn,
  proofFor,
  QUIET_SNR,
  supportedBy,
  THRESHOLDS,
} from '../../voice/web-speech/recognition-certainty';
import { denoise } from '../../voice/web-speech/recognition-denoise';
import type { Utterance } from '../../voice/web-speech/recognition-endpointer';
import { Endpointer } from '../../voice/web-speech/recognition-endpointer';
import type { RecognitionEngine } from '../../voice/web-speech/recognition-engine';
import { networkOf } from '../../voice/web-speech/recognition-network';
import { phraseOf } from '../../voice/web-speech/recognition-verdict';

/** Support at which is tried whether the phrase wins, rising; the last is the most that a second ear may give. */
const SUPPORTS = [-30, -20, -10, 0, 10, 20, 30, 40, 60];

const foundSchema = z.object({
  phrase: z.string(),
  /** The least support with which it wins; null where none of those that are tried is enough. */
  needed: z.number().nullable(),
});
const fileSchema = z.object({ of: z.string(), sounds: z.record(z.string(), foundSchema.nullable()) });
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
  readonly #sounds: z.infer<typeof fileSchema>['sounds'];

  constructor(options: EnrolledMeterOptions) {
    this.#options = options;
    const kept = existsSync(options.cache)
      ? fileSchema.parse(JSON.parse(readFileSync(options.cache, 'utf8')))
      : { of: '', sounds: {} };
    this.#sounds = kept.of === options.of ? kept.sounds : {};
  }

  save(): void {
    const { cache, of } = this.#options;
    writeFileSync(`${cache}.new`, JSON.stringify({ of, sounds: this.#sounds }));
    renameSync(`${cache}.new`, cache);
  }

  /** What the engine finds in a sound, and what the ears of `ears` say for it; null where it finds nothing. */
  measure(name: string, make: () => Float32Array, ear: SecondEar | null): (Found & { score: number }) | null {
    let utterance: Utterance | null = null;
    if (!(name in this.#sounds)) {
      utterance = onlyUtterance(make());
      this.#sounds[name] = utterance === null ? null : this.#find(utterance);
    }
    const found = this.#sounds[name] ?? null;
    if (found === null) return null;
    if (found.needed === null || ear === null) return { ...found, score: 0 };
    utterance ??= onlyUtterance(make());
    const features = utterance === null ? null : featuresOf({ samples: heard(utterance), loud: utterance.loud });
    return { ...found, score: features === null ? 0 : (ear.scores(features, [found.phrase])[0] ?? 0) };
  }

  #find(utterance: Utterance): Found | null {
    const { engine, automaton } = this.#options;
    const { snr, loud } = utterance;
    if (snr < DEAF_SNR) return null;
    const sound = heard(utterance);
    const finding = findingFor(snr);
    engine.use(networkOf(automaton, finding));
    const decoding = engine.decode(sound);
    const phrase = phraseOf(decoding, automaton, loud);
    if (decoding === null || phrase === null) return null;
    const proof = proofFor(THRESHOLDS.high, snr, phonesIn(decoding));
    const wins = (support: number): boolean => {
      const { loop, lead } = supportedBy(proof, support, finding);
      engine.use(networkOf(automaton, loop, { words: decoding.words, cost: lead }));
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

export function onlyUtterance(sound: Float32Array): Utterance | null {
  const found = new Endpointer().push(sound).flatMap((one) => (one.kind === 'ended' ? [one.utterance] : []));
  return found.length === 1 ? (found[0] ?? null) : null;
}

function heard({ samples, noise, snr }: Utterance): Float32Array {
  return snr < QUIET_SNR ? denoise(samples, noise) : samples;
}
