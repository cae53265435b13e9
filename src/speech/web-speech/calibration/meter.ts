/**
 * Measures how much certainty each utterance can bear: whether its phrase keeps within some distance of the filler model
 * and leads by so much over every other phrase. What was searched once is kept in a file and never searched again.
 */
import { z } from 'zod';
import type { Automaton } from '../engine/automaton';
import { fillerCosts, phonesIn, secondPassFor } from '../decision/certainty';
import { soundFor } from '../acoustics/denoise';
import type { Utterance } from '../acoustics/endpointer';
import type { RecognitionEngine } from '../engine/engine';
import type { Handicap, FillerCosts } from '../engine/network';
import { networkOf } from '../engine/network';
import { phraseOf } from '../decision/verdict';
import { KeptSearches } from './kept-searches';
import { utterancesIn } from './utterances-in';

const measuredSchema = z.object({
  snr: z.number(),
  /** The phrase that was found with the filler model at the cost of the first pass; null for none. */
  phrase: z.string().nullable(),
  /** Sounds of its longest word. */
  phones: z.number(),
  /** What was searched: margin behind the filler model, margin over others, and whether the phrase won. */
  known: z.array(z.tuple([z.number(), z.number(), z.boolean()])),
});
type Row = z.infer<typeof measuredSchema>;

/** Searches after which everything is written. */
const SAVE_EVERY = 40;

export interface Measured {
  readonly snr: number;
  readonly phrase: string | null;
  readonly phones: number;
  /** Whether the phrase lies no more than `filler` behind the filler model and is better by `rival` than every other. */
  wins(filler: number, rival: number): boolean;
}

export interface MeterOptions {
  readonly engine: RecognitionEngine;
  readonly automaton: Automaton;
  /** Cost of the filler model in the first pass, which finds what may have been said. */
  readonly finding: number;
  /** Where searches are kept. */
  readonly cache: string;
  /** Tells one state of engine and grammar from another: kept searches of another state are forgotten. */
  readonly of: string;
}

export class Meter {
  readonly #options: MeterOptions;
  readonly #kept: KeptSearches<Row[]>;
  #unsaved = 0;
  /** Searches made in this run. */
  searches = 0;

  constructor(options: MeterOptions) {
    this.#options = options;
    this.#kept = new KeptSearches({ row: z.array(measuredSchema), file: options.cache, of: options.of });
  }

  save(): void {
    this.#unsaved = 0;
    this.#kept.save();
  }

  /** The utterances in a sound; `name` tells the sound from every other one, `make` makes it where it is needed. */
  measure(name: string, make: () => Float32Array): readonly Measured[] {
    let utterances: readonly Utterance[] | null = null;
    const heard = (): readonly Utterance[] => (utterances ??= utterancesIn(make()));
    const rows = (this.#kept.sounds[name] ??= heard().map((utterance) => this.#find(utterance)));
    return rows.map((row, index) => ({
      ...row,
      wins: (filler, rival) => {
        const { phrase } = row;
        if (phrase === null) return false;
        // A greater distance behind the filler is easier to keep, and a greater margin over others harder.
        if (row.known.some(([a, l, won]) => won && a <= filler && l >= rival)) return true;
        if (row.known.some(([a, l, won]) => !won && a >= filler && l <= rival)) return false;
        const utterance = heard()[index];
        const handicap = { words: phrase.split(' '), cost: rival };
        const costs = secondPassFor({ filler, rival });
        const won = utterance !== undefined && this.#search(utterance, costs, handicap)?.phrase === phrase;
        row.known.push([filler, rival, won]);
        return won;
      },
    }));
  }

  #find(utterance: Utterance): Row {
    const found = this.#search(utterance, fillerCosts(this.#options.finding), null);
    return { snr: utterance.snr, phrase: found?.phrase ?? null, phones: found?.phones ?? 0, known: [] };
  }

  #search(utterance: Utterance, costs: FillerCosts, handicap: Handicap | null) {
    this.searches += 1;
    this.#unsaved += 1;
    // A run that is cut off goes on from here.
    if (this.#unsaved > SAVE_EVERY) this.save();
    const { engine, automaton } = this.#options;
    const used = engine.use(networkOf(automaton, costs, { handicap }));
    if (!used.ok) throw new Error(used.detail);
    const decoding = engine.decode(soundFor(utterance));
    const phrase = phraseOf(decoding, automaton, utterance.loud);
    return decoding === null || phrase === null ? null : { phrase, phones: phonesIn(decoding) };
  }
}
