/**
 * Measures how much certainty each utterance can bear: whether its phrase keeps within some distance of the phone loop
 * and leads by so much over every other phrase. What was searched once is kept in a file and never searched again.
 */
import { z } from 'zod';
import type { Automaton } from '../engine/automaton';
import { loopCosts, phonesIn, provingFor } from '../decision/certainty';
import { soundFor } from '../acoustics/denoise';
import type { Utterance } from '../acoustics/endpointer';
import type { RecognitionEngine } from '../engine/engine';
import type { Handicap, LoopCosts } from '../engine/network';
import { networkOf } from '../engine/network';
import { phraseOf } from '../decision/verdict';
import { KeptSearches } from './kept-searches';
import { utterancesIn } from './utterances-in';

const measuredSchema = z.object({
  snr: z.number(),
  /** The phrase that was found with the loop at the finding cost; null for none. */
  phrase: z.string().nullable(),
  /** Sounds of its longest word. */
  phones: z.number(),
  /** What was searched: distance to the loop, lead, and whether the phrase won. */
  known: z.array(z.tuple([z.number(), z.number(), z.boolean()])),
});
type Row = z.infer<typeof measuredSchema>;

/** Searches after which everything is written. */
const SAVE_EVERY = 40;

export interface Measured {
  readonly snr: number;
  readonly phrase: string | null;
  readonly phones: number;
  /** Whether the phrase lies no more than `alone` behind the loop and leads by `lead` over every other. */
  wins(alone: number, lead: number): boolean;
}

export interface MeterOptions {
  readonly engine: RecognitionEngine;
  readonly automaton: Automaton;
  /** Loop cost of the first search, which finds what may have been said. */
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
      wins: (alone, lead) => {
        const { phrase } = row;
        if (phrase === null) return false;
        // A greater distance is easier to keep, and a greater lead harder.
        if (row.known.some(([a, l, won]) => won && a <= alone && l >= lead)) return true;
        if (row.known.some(([a, l, won]) => !won && a >= alone && l <= lead)) return false;
        const utterance = heard()[index];
        const handicap = { words: phrase.split(' '), cost: lead };
        const loop = provingFor({ alone, lead });
        const won = utterance !== undefined && this.#search(utterance, loop, handicap)?.phrase === phrase;
        row.known.push([alone, lead, won]);
        return won;
      },
    }));
  }

  #find(utterance: Utterance): Row {
    const found = this.#search(utterance, loopCosts(this.#options.finding), null);
    return { snr: utterance.snr, phrase: found?.phrase ?? null, phones: found?.phones ?? 0, known: [] };
  }

  #search(utterance: Utterance, loop: LoopCosts, handicap: Handicap | null) {
    this.searches += 1;
    this.#unsaved += 1;
    // A run that is cut off goes on from here.
    if (this.#unsaved > SAVE_EVERY) this.save();
    const { engine, automaton } = this.#options;
    const used = engine.use(networkOf(automaton, loop, { handicap }));
    if (!used.ok) throw new Error(used.detail);
    const decoding = engine.decode(soundFor(utterance));
    const phrase = phraseOf(decoding, automaton, utterance.loud);
    return decoding === null || phrase === null ? null : { phrase, phones: phonesIn(decoding) };
  }
}
