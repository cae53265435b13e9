/** The parts of the compiled recogniser that its own type declarations leave out, and how it is made. */

/** In every browser, worker and Node, though in no library of types but those of one of them. */
declare const TextEncoder: new () => { encode(text: string): Uint8Array };
declare const TextDecoder: new () => { decode(bytes: Uint8Array): string };

export interface EngineDecoder {
  readonly cdecoder: number;
  initialize(): Promise<unknown>;
  init_feat(): Promise<unknown>;
  add_words(...words: readonly (readonly [string, string])[]): void;
  lookup_word(word: string): string | null;
  start(): void;
  process_audio(pcm: Float32Array, noSearch: boolean, fullUtterance: boolean): number;
  stop(): void;
  delete(): void;
}

export interface EngineModule {
  readonly Decoder: new (config: Readonly<Record<string, string | number | boolean>>) => EngineDecoder;
  /** Views of the engine's memory. They are replaced when it grows: read them anew each time. */
  readonly HEAP32: Int32Array;
  readonly HEAPU8: Uint8Array;
  _malloc(bytes: number): number;
  _free(address: number): void;
  _decoder_logmath(decoder: number): number;
  _decoder_set_fsg(decoder: number, fsg: number): number;
  _fsg_model_init(name: number, logmath: number, languageWeight: number, states: number): number;
  _fsg_set_states(fsg: number, start: number, end: number): void;
  _fsg_model_word_add(fsg: number, word: number): number;
  /** `logProbability` is a whole number, a logarithm to the base 1.0001. */
  _fsg_model_trans_add(fsg: number, from: number, to: number, logProbability: number, word: number): void;
  _fsg_model_null_trans_add(fsg: number, from: number, to: number, logProbability: number): number;
  _fsg_model_free(fsg: number): number;
  _decoder_init_feat_s3file(decoder: number, transform: number): number;
  /** Address of the hypothesis, 0 for none; writes the path's score. */
  _decoder_hyp(decoder: number, score: number): number;
  _decoder_seg_iter(decoder: number): number;
  _seg_iter_next(iterator: number): number;
  _seg_iter_word(iterator: number): number;
  _seg_iter_frames(iterator: number, first: number, last: number): void;
}

/** The package's default export, in the page, in a worker or in Node. */
export type CreateEngineModule = (settings: Readonly<Record<string, unknown>>) => Promise<unknown>;

/** Lends the engine a text for the time of `use`. */
export function withText<T>(module: EngineModule, text: string, use: (address: number) => T): T {
  const bytes = new TextEncoder().encode(text);
  const address = module._malloc(bytes.length + 1);
  module.HEAPU8.set(bytes, address);
  module.HEAPU8[address + bytes.length] = 0;
  try {
    return use(address);
  } finally {
    module._free(address);
  }
}

/** Reads a text that the engine keeps in its memory. */
export function textAt(module: EngineModule, address: number): string {
  const bytes = module.HEAPU8;
  let end = address;
  while (bytes[end] !== 0) end += 1;
  return new TextDecoder().decode(bytes.slice(address, end));
}
