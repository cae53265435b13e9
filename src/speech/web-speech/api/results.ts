/** Results, lists and events of speech recognition, as the Web Speech API draft of 8 May 2026 shapes them. */

export class SpeechRecognitionAlternative {
  constructor(
    readonly transcript: string,
    /** 0 to 1. */
    readonly confidence: number,
  ) {}
}

/** A list that is read by index, by `item` or by iteration, like the platform's own. */
class ReadOnlyList<T> implements Iterable<T> {
  readonly [index: number]: T;
  readonly length: number;

  constructor(items: readonly T[]) {
    this.length = items.length;
    for (const [index, item] of items.entries()) Object.defineProperty(this, index, { value: item, enumerable: true });
  }

  item(index: number): T | null {
    return this[index] ?? null;
  }

  *[Symbol.iterator](): Generator<T> {
    for (let index = 0; index < this.length; index += 1) {
      const item = this[index];
      if (item !== undefined) yield item;
    }
  }
}

export class SpeechRecognitionResult extends ReadOnlyList<SpeechRecognitionAlternative> {
  constructor(
    alternatives: readonly SpeechRecognitionAlternative[],
    readonly isFinal: boolean,
  ) {
    super(alternatives);
  }
}

export class SpeechRecognitionResultList extends ReadOnlyList<SpeechRecognitionResult> {}

export interface SpeechRecognitionEventInit extends EventInit {
  readonly resultIndex?: number;
  readonly results: SpeechRecognitionResultList | null;
  readonly isTooLoud?: boolean;
}

export class SpeechRecognitionEvent extends Event {
  /** The first result that has changed. */
  readonly resultIndex: number;
  /** Everything in this session so far; null where a `nomatch` has nothing to show. */
  readonly results: SpeechRecognitionResultList | null;
  /** Ours, not the draft's: with `nomatch`, that the room was too loud to be sure. */
  readonly isTooLoud: boolean;

  constructor(type: string, init: SpeechRecognitionEventInit) {
    super(type, init);
    this.resultIndex = init.resultIndex ?? 0;
    this.results = init.results;
    this.isTooLoud = init.isTooLoud ?? false;
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
  readonly error: SpeechRecognitionErrorCode;
  readonly message: string;

  constructor(type: string, init: SpeechRecognitionErrorEventInit) {
    super(type, init);
    this.error = init.error;
    this.message = init.message ?? '';
  }
}
