/** Results, lists and events of speech recognition, as the Web Speech API draft of 8 May 2026 shapes them. */

import { enumerated, required, unsignedLong } from './web-idl';

export class SpeechRecognitionAlternative {
  readonly #transcript: string;
  readonly #confidence: number;

  /** `confidence` is 0 to 1. */
  constructor(transcript: string, confidence: number) {
    this.#transcript = transcript;
    this.#confidence = confidence;
  }

  get transcript(): string {
    return this.#transcript;
  }
  get confidence(): number {
    return this.#confidence;
  }
}

/** What is read by index, by `item` or by iteration, like the platform's own lists. */
function setIndexes(list: object, items: readonly unknown[]): void {
  for (const [index, value] of items.entries()) Object.defineProperty(list, index, { value, enumerable: true });
}

export class SpeechRecognitionResult implements Iterable<SpeechRecognitionAlternative> {
  readonly [index: number]: SpeechRecognitionAlternative;
  readonly #alternatives: readonly SpeechRecognitionAlternative[];
  readonly #isFinal: boolean;

  constructor(alternatives: readonly SpeechRecognitionAlternative[], isFinal: boolean) {
    this.#alternatives = alternatives;
    this.#isFinal = isFinal;
    setIndexes(this, alternatives);
  }

  get length(): number {
    return this.#alternatives.length;
  }
  get isFinal(): boolean {
    return this.#isFinal;
  }

  item(index: number): SpeechRecognitionAlternative | null {
    return this.#alternatives[unsignedLong(index)] ?? null;
  }

  [Symbol.iterator](): Iterator<SpeechRecognitionAlternative> {
    return this.#alternatives.values();
  }
}

export class SpeechRecognitionResultList implements Iterable<SpeechRecognitionResult> {
  readonly [index: number]: SpeechRecognitionResult;
  readonly #results: readonly SpeechRecognitionResult[];

  constructor(results: readonly SpeechRecognitionResult[]) {
    this.#results = results;
    setIndexes(this, results);
  }

  get length(): number {
    return this.#results.length;
  }

  item(index: number): SpeechRecognitionResult | null {
    return this.#results[unsignedLong(index)] ?? null;
  }

  [Symbol.iterator](): Iterator<SpeechRecognitionResult> {
    return this.#results.values();
  }
}

export interface SpeechRecognitionEventInit extends EventInit {
  readonly resultIndex?: number;
  readonly results: SpeechRecognitionResultList | null;
  readonly isTooLoud?: boolean;
}

export class SpeechRecognitionEvent extends Event {
  readonly #init: SpeechRecognitionEventInit;

  constructor(type: string, init: SpeechRecognitionEventInit) {
    super(type, required(init, 'What the event carries'));
    required(init.results, 'The list of results');
    this.#init = init;
  }

  /** The first result that has changed. */
  get resultIndex(): number {
    return this.#init.resultIndex ?? 0;
  }
  /** Everything in this session so far; null where a `nomatch` has nothing to show. */
  get results(): SpeechRecognitionResultList | null {
    return this.#init.results;
  }
  /** Ours, not the draft's: with `nomatch`, that the room was too loud to be sure. */
  get isTooLoud(): boolean {
    return this.#init.isTooLoud ?? false;
  }
}

/** The codes of the draft, and `bad-grammar` of the earlier ones that still had grammars. */
export const SPEECH_RECOGNITION_ERRORS = [
  'no-speech',
  'aborted',
  'audio-capture',
  'network',
  'not-allowed',
  'service-not-allowed',
  'language-not-supported',
  'phrases-not-supported',
  'bad-grammar',
] as const;
export type SpeechRecognitionErrorCode = (typeof SPEECH_RECOGNITION_ERRORS)[number];

export interface SpeechRecognitionErrorEventInit extends EventInit {
  readonly error: SpeechRecognitionErrorCode;
  readonly message?: string;
}

export class SpeechRecognitionErrorEvent extends Event {
  readonly #error: SpeechRecognitionErrorCode;
  readonly #message: string;

  constructor(type: string, init: SpeechRecognitionErrorEventInit) {
    super(type, required(init, 'What the event carries'));
    this.#error = enumerated(SPEECH_RECOGNITION_ERRORS, init.error);
    this.#message = init.message ?? '';
  }

  get error(): SpeechRecognitionErrorCode {
    return this.#error;
  }
  get message(): string {
    return this.#message;
  }
}
