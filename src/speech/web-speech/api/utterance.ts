/** What a page hands to the voice, and what comes back: utterances, voices and events of the W3C Web Speech API. */
import { attribute, defineAttributes, defineHandlers, enumerated, float, required } from './web-idl';

/** A voice of the engine. All of them are inside this page: `localService` is always true. */
export class SpeechSynthesisVoice {
  readonly #voice: { readonly name: string; readonly lang: string; readonly default: boolean };
  readonly #isLocal = true;

  constructor(voice: { readonly name: string; readonly lang: string; readonly default: boolean }) {
    this.#voice = voice;
  }

  get voiceURI(): string {
    return `flite:${this.#voice.name}`;
  }
  get name(): string {
    return this.#voice.name;
  }
  get lang(): string {
    return this.#voice.lang;
  }
  get localService(): boolean {
    return this.#isLocal;
  }
  get default(): boolean {
    return this.#voice.default;
  }
}

export const SYNTHESIS_EVENTS = ['start', 'end', 'pause', 'resume', 'boundary'] as const;
export type SynthesisEventName = (typeof SYNTHESIS_EVENTS)[number];

/** Error codes of the draft. Those of a network, of a busy output and of an argument do not happen here. */
export const SYNTHESIS_ERRORS = [
  'canceled',
  'interrupted',
  'audio-busy',
  'audio-hardware',
  'network',
  'synthesis-unavailable',
  'synthesis-failed',
  'language-unavailable',
  'voice-unavailable',
  'text-too-long',
  'invalid-argument',
  'not-allowed',
] as const;
export type SynthesisErrorCode = (typeof SYNTHESIS_ERRORS)[number];

export interface SpeechSynthesisEventInit extends EventInit {
  readonly utterance: SpeechSynthesisUtterance;
  readonly charIndex?: number;
  readonly charLength?: number;
  /** Seconds since the utterance began. */
  readonly elapsedTime?: number;
  readonly name?: string;
}

export interface SpeechSynthesisErrorEventInit extends SpeechSynthesisEventInit {
  readonly error: SynthesisErrorCode;
}

/** Something that happened to an utterance; `boundary` events are named `sentence`. */
export class SpeechSynthesisEvent extends Event {
  readonly #init: SpeechSynthesisEventInit;

  constructor(type: string, init: SpeechSynthesisEventInit) {
    super(type, required(init, 'What the event carries'));
    required(init.utterance, 'The utterance');
    this.#init = init;
  }

  get utterance(): SpeechSynthesisUtterance {
    return this.#init.utterance;
  }
  get charIndex(): number {
    return this.#init.charIndex ?? 0;
  }
  get charLength(): number {
    return this.#init.charLength ?? 0;
  }
  get elapsedTime(): number {
    return this.#init.elapsedTime ?? 0;
  }
  get name(): string {
    return this.#init.name ?? '';
  }
}

/** An utterance that was not spoken to its end, and why. */
export class SpeechSynthesisErrorEvent extends SpeechSynthesisEvent {
  readonly #error: SynthesisErrorCode;

  constructor(type: string, init: SpeechSynthesisErrorEventInit) {
    super(type, init);
    this.#error = enumerated(SYNTHESIS_ERRORS, init.error);
  }

  get error(): SynthesisErrorCode {
    return this.#error;
  }
}

type Handler = ((event: SpeechSynthesisEvent) => void) | null;
type ErrorHandler = ((event: SpeechSynthesisErrorEvent) => void) | null;

/**
 * One thing to say. Out-of-range numbers are kept within the draft's ranges (volume 0 to 1, rate 0.1 to 10,
 * pitch 0 to 2); a number that is none is a TypeError, as Web IDL's `float` demands.
 */
export class SpeechSynthesisUtterance extends EventTarget {
  declare text: string;
  declare lang: string;
  declare voice: SpeechSynthesisVoice | null;
  declare volume: number;
  declare rate: number;
  declare pitch: number;

  declare onstart: Handler;
  declare onend: Handler;
  declare onpause: Handler;
  declare onresume: Handler;
  declare onboundary: Handler;
  /** For marks of SSML, which this engine does not tell of. */
  declare onmark: Handler;
  declare onerror: ErrorHandler;

  static {
    defineAttributes(this, {
      text: attribute('', String),
      lang: attribute('', String),
      voice: attribute(null, voiceOrNull),
      volume: attribute(1, (value) => within(float(value), 0, 1)),
      rate: attribute(1, (value) => within(float(value), 0.1, 10)),
      pitch: attribute(1, (value) => within(float(value), 0, 2)),
    });
    defineHandlers(this, [...SYNTHESIS_EVENTS, 'mark', 'error']);
  }

  constructor(text = '') {
    super();
    this.text = text;
  }
}

function voiceOrNull(value: unknown): SpeechSynthesisVoice | null {
  if (value === null || value === undefined || value instanceof SpeechSynthesisVoice) return value ?? null;
  throw new TypeError('This is no voice.');
}

function within(value: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, value));
}
