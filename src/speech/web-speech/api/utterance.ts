/** What a page hands to the voice, and what comes back: utterances, voices and events of the W3C Web Speech API. */

/** A voice of the engine. All of them are inside this page: `localService` is always true. */
export class SpeechSynthesisVoice {
  readonly voiceURI: string;
  readonly name: string;
  readonly lang: string;
  readonly localService = true;
  readonly default: boolean;

  constructor(voice: { readonly name: string; readonly lang: string; readonly default: boolean }) {
    this.voiceURI = `flite:${voice.name}`;
    this.name = voice.name;
    this.lang = voice.lang;
    this.default = voice.default;
  }
}

export const SYNTHESIS_EVENTS = ['start', 'end', 'pause', 'resume', 'boundary'] as const;
export type SynthesisEventName = (typeof SYNTHESIS_EVENTS)[number];

/** Error codes of the draft that can happen here: there is no network and no length of text that is too long alone. */
export const SYNTHESIS_ERRORS = [
  'canceled',
  'interrupted',
  'audio-hardware',
  'synthesis-failed',
  'language-unavailable',
  'voice-unavailable',
  'text-too-long',
  'not-allowed',
] as const;
export type SynthesisErrorCode = (typeof SYNTHESIS_ERRORS)[number];

interface EventDetail {
  readonly utterance: SpeechSynthesisUtterance;
  readonly charIndex: number;
  readonly charLength: number;
  /** Seconds since the utterance began. */
  readonly elapsedTime: number;
  readonly name: string;
}

/** Something that happened to an utterance; `boundary` events are named `sentence`. */
export class SpeechSynthesisEvent extends Event implements EventDetail {
  readonly utterance: SpeechSynthesisUtterance;
  readonly charIndex: number;
  readonly charLength: number;
  readonly elapsedTime: number;
  readonly name: string;

  constructor(type: SynthesisEventName | 'error', detail: EventDetail) {
    super(type);
    this.utterance = detail.utterance;
    this.charIndex = detail.charIndex;
    this.charLength = detail.charLength;
    this.elapsedTime = detail.elapsedTime;
    this.name = detail.name;
  }
}

/** An utterance that was not spoken to its end, and why. */
export class SpeechSynthesisErrorEvent extends SpeechSynthesisEvent {
  readonly error: SynthesisErrorCode;

  constructor(error: SynthesisErrorCode, detail: EventDetail) {
    super('error', detail);
    this.error = error;
  }
}

type Handler = ((event: SpeechSynthesisEvent) => void) | null;
type ErrorHandler = ((event: SpeechSynthesisErrorEvent) => void) | null;

/**
 * One thing to say. Out-of-range numbers are kept within the draft's ranges (volume 0 to 1, rate 0.1 to 10,
 * pitch 0 to 2); a number that is none is a TypeError, as Web IDL's `float` demands.
 */
export class SpeechSynthesisUtterance extends EventTarget {
  text: string;
  lang = '';
  voice: SpeechSynthesisVoice | null = null;
  #volume = 1;
  #rate = 1;
  #pitch = 1;
  readonly #handlers = new Map<string, Handler>();

  constructor(text = '') {
    super();
    this.text = text;
  }

  get volume(): number {
    return this.#volume;
  }
  set volume(value: number) {
    this.#volume = within(value, 0, 1);
  }
  get rate(): number {
    return this.#rate;
  }
  set rate(value: number) {
    this.#rate = within(value, 0.1, 10);
  }
  get pitch(): number {
    return this.#pitch;
  }
  set pitch(value: number) {
    this.#pitch = within(value, 0, 2);
  }

  get onstart(): Handler {
    return this.#handler('start');
  }
  set onstart(handler: Handler) {
    this.#setHandler('start', handler);
  }
  get onend(): Handler {
    return this.#handler('end');
  }
  set onend(handler: Handler) {
    this.#setHandler('end', handler);
  }
  get onpause(): Handler {
    return this.#handler('pause');
  }
  set onpause(handler: Handler) {
    this.#setHandler('pause', handler);
  }
  get onresume(): Handler {
    return this.#handler('resume');
  }
  set onresume(handler: Handler) {
    this.#setHandler('resume', handler);
  }
  get onboundary(): Handler {
    return this.#handler('boundary');
  }
  set onboundary(handler: Handler) {
    this.#setHandler('boundary', handler);
  }
  /** For marks of SSML, which this engine does not tell of. */
  get onmark(): Handler {
    return this.#handler('mark');
  }
  set onmark(handler: Handler) {
    this.#setHandler('mark', handler);
  }
  get onerror(): ErrorHandler {
    return this.#handler('error') as ErrorHandler;
  }
  set onerror(handler: ErrorHandler) {
    this.#setHandler('error', handler as Handler);
  }

  #handler(type: string): Handler {
    return this.#handlers.get(type) ?? null;
  }

  /** One listener for each type, added when the handler is first set: so it keeps its place among the others. */
  #setHandler(type: string, handler: Handler): void {
    if (!this.#handlers.has(type)) {
      this.addEventListener(type, (event) => this.#handlers.get(type)?.call(this, event as SpeechSynthesisEvent));
    }
    this.#handlers.set(type, handler);
  }
}

function within(value: number, least: number, most: number): number {
  if (!Number.isFinite(value)) throw new TypeError(`${value} is not a finite number`);
  return Math.min(most, Math.max(least, value));
}
