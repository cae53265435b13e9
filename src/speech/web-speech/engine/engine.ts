/** The recogniser: a network and an utterance in, the best path through it out. No DOM, no Node. */
import { PHONES, ok, refused } from '@stowcall/grammar';
import type { Pronunciation, Refused, Result } from '@stowcall/grammar';
import type { Pronounced } from './contexts';
import { splitContexts } from './contexts';
import type { Decoding, Segment } from './decoding';
import { isPause, readDecoding } from './decoding';
import type { CreateEngineModule, EngineDecoder, EngineModule } from './module';
import { textAt, withText } from './module';
import type { Network } from './network';
import { phoneWord } from './network';

/** Samples in a second of everything that the engine hears. */
export const SAMPLE_RATE = 16_000;

/**
 * Beams as wide as the filler model needs: with the engine's own, speech in noise often ends outside the grammar, and the filler
 * is pruned away before it can win. `lw` 1: else the engine raises its costs for words and pauses to the power 6.5.
 */
const SETTINGS = {
  samprate: SAMPLE_RATE,
  loglevel: 'FATAL',
  lw: 1,
  beam: 1e-80,
  pbeam: 1e-80,
  wbeam: 1e-80,
  // The network names each pronunciation itself.
  fsgusealtpron: false,
} as const;
/** The engine's logarithms have this base. */
const LOG_BASE = 1.0001;

export type EngineTrouble = 'engine' | 'model';
export type NetworkTrouble = 'unknown-word' | 'bad-grammar';

export interface EngineOptions {
  readonly createModule: CreateEngineModule;
  /** Where the compiled engine lies; null where the package finds it itself (Node). */
  readonly wasm: string | null;
  /** Folder or address of the acoustic model, without a slash at its end. */
  readonly model: string;
  readonly pronunciations: readonly Pronunciation[];
  /** Changes to the decoder's settings, for measurements. */
  readonly settings?: Readonly<Record<string, string | number | boolean>>;
}

export interface RecognitionEngine {
  /** From now on only this can be heard. Refused where a word of it has no pronunciation. */
  use(network: Network): Result<void, NetworkTrouble>;
  /** The best path for one utterance, 16 kHz, -1 to 1; null where none reaches the end. */
  decode(samples: Float32Array): Decoding | null;
  dispose(): void;
}

/** Loads the engine and its model. */
export async function createEngine(options: EngineOptions): Promise<Result<RecognitionEngine, EngineTrouble>> {
  let module: EngineModule;
  try {
    const { wasm } = options;
    const silent = { print: () => undefined, printErr: () => undefined, modelBase: '' };
    module = (await options.createModule(
      wasm === null ? silent : { ...silent, locateFile: () => wasm },
    )) as EngineModule;
  } catch (error) {
    return failed('engine', 'The recogniser did not start', error);
  }
  try {
    const decoder = new module.Decoder({ ...SETTINGS, hmm: options.model, ...options.settings });
    // The package asks for a transform that this kind of model has not; a server that answers with a page instead of
    // "not found" would have that page read as numbers.
    decoder.init_feat = () => Promise.resolve(module._decoder_init_feat_s3file(decoder.cdecoder, 0));
    await decoder.initialize();
    addWords(decoder, [...options.pronunciations, ...PHONES.map((phone) => [phoneWord(phone), phone] as const)]);
    return ok(new Engine(module, decoder));
  } catch (error) {
    return failed('model', 'The speech model cannot be loaded', error);
  }
}

function failed<R extends EngineTrouble>(reason: R, what: string, error: unknown): Refused<R> {
  const why = error instanceof Error ? error.message : String(error);
  return refused(reason, `${what} (${why}). Start the kiosk again; touch, keys and the command card still work.`);
}

/** A word that the dictionary has already keeps its pronunciation. */
function addWords(decoder: EngineDecoder, words: readonly Pronunciation[]): void {
  for (const word of words) if (decoder.lookup_word(word[0]) === null) decoder.add_words(word);
}

class Engine implements RecognitionEngine {
  readonly #module: EngineModule;
  readonly #decoder: EngineDecoder;
  /** Two words of the engine's memory, for numbers that it writes. */
  readonly #scratch: number;
  readonly #pronounced = new Map<string, readonly Pronounced[]>();
  #ready = false;

  constructor(module: EngineModule, decoder: EngineDecoder) {
    this.#module = module;
    this.#decoder = decoder;
    this.#scratch = module._malloc(8);
  }

  use(network: Network): Result<void, NetworkTrouble> {
    // Until a network is in force nothing may be heard: not even what the last one knew.
    this.#ready = false;
    const unknown = network.arcs.find(({ word }) => word !== null && this.#pronounce(word).length === 0)?.word;
    if (typeof unknown === 'string') {
      return refused('unknown-word', `The recogniser cannot pronounce "${unknown}"; add it to the pronunciations.`);
    }
    const split = splitContexts(network, (word) => this.#pronounce(word));
    if (this.#module._decoder_set_fsg(this.#decoder.cdecoder, this.#write(split)) < 0) {
      return refused('bad-grammar', 'The recogniser does not take this grammar.');
    }
    this.#ready = true;
    return ok(undefined);
  }

  /** All pronunciations of a word: the second one of `inches` is named `inches(2)`. None where it is unknown. */
  #pronounce(word: string): readonly Pronounced[] {
    const known = this.#pronounced.get(word);
    if (known !== undefined) return known;
    const found: Pronounced[] = [];
    for (let name = word; ; name = `${word}(${found.length + 1})`) {
      const phones = this.#decoder.lookup_word(name);
      if (phones === null) break;
      found.push({ name, phones: phones.trim().split(/\s+/) });
    }
    this.#pronounced.set(word, found);
    return found;
  }

  /** Sounds of a pronunciation, by its name. */
  #phonesIn(name: string): number {
    return this.#decoder.lookup_word(name)?.trim().split(/\s+/).length ?? 0;
  }

  /** The network in the engine's memory. */
  #write(network: Network): number {
    const module = this.#module;
    const logmath = module._decoder_logmath(this.#decoder.cdecoder);
    const fsg = withText(module, 'kiosk', (name) => module._fsg_model_init(name, logmath, SETTINGS.lw, network.states));
    module._fsg_set_states(fsg, network.start, network.end);
    const words = new Set(network.arcs.flatMap(({ word }) => (word === null ? [] : [word])));
    const numbers = new Map(
      [...words].map((word) => [word, withText(module, word, (text) => module._fsg_model_word_add(fsg, text))]),
    );
    for (const { from, to, word, cost } of network.arcs) {
      const log = -Math.round(cost / Math.log(LOG_BASE));
      const number = word === null ? undefined : numbers.get(word);
      if (number === undefined) module._fsg_model_null_trans_add(fsg, from, to, log);
      else module._fsg_model_trans_add(fsg, from, to, log, number);
    }
    return fsg;
  }

  decode(samples: Float32Array): Decoding | null {
    if (!this.#ready) return null;
    const { start, score } = this.#search(samples);
    if (start === 0) return null;
    return readDecoding({ segments: this.#segments(), score, frames: frameCount(samples.length) });
  }

  #search(samples: Float32Array): { start: number; score: number } {
    this.#decoder.start();
    try {
      // The whole utterance at once: its own mean is taken off (cepstral mean, "current"), so nothing that sounded
      // before, and no noise, is carried into it.
      this.#decoder.process_audio(samples, false, true);
    } finally {
      this.#decoder.stop();
    }
    const start = this.#module._decoder_hyp(this.#decoder.cdecoder, this.#scratch);
    return { start, score: this.#module.HEAP32[this.#scratch >> 2] ?? 0 };
  }

  #segments(): Segment[] {
    const module = this.#module;
    const segments: Segment[] = [];
    let iterator = module._decoder_seg_iter(this.#decoder.cdecoder);
    while (iterator !== 0) {
      module._seg_iter_frames(iterator, this.#scratch, this.#scratch + 4);
      const at = this.#scratch >> 2;
      const word = textAt(module, module._seg_iter_word(iterator));
      const [first = 0, last = 0] = module.HEAP32.subarray(at, at + 2);
      segments.push({ word, first, last, phones: isPause(word) ? 0 : this.#phonesIn(word) });
      iterator = module._seg_iter_next(iterator);
    }
    return segments;
  }

  dispose(): void {
    this.#ready = false;
    this.#decoder.delete();
  }
}

/** Frames of 25.625 ms, one every 10 ms. */
function frameCount(samples: number): number {
  return samples < 410 ? 0 : Math.floor((samples - 410) / 160) + 1;
}
