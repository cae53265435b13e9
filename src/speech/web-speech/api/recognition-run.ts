/** One session of speech recognition, from `start()` to `end`: what its service tells becomes the draft's events. */
import { isSupported } from './availability';
import type { GrammarSettings } from './listened-for';
import { listenedFor } from './listened-for';
import type { SpeechRecognitionErrorCode } from './results';
import {
  SpeechRecognitionAlternative,
  SpeechRecognitionErrorEvent,
  SpeechRecognitionEvent,
  SpeechRecognitionResult,
  SpeechRecognitionResultList,
} from './results';
import type { RecognitionService, RecognitionTrouble, Session, SessionEvent } from './service';
import type { Verdict } from '../decision/verdict';

/** In the order in which a session that goes well fires them. */
export const RECOGNITION_EVENTS = [
  'start',
  'audiostart',
  'soundstart',
  'speechstart',
  'speechend',
  'soundend',
  'audioend',
  'result',
  'nomatch',
  'error',
  'end',
] as const;
export type RecognitionEventName = (typeof RECOGNITION_EVENTS)[number];
/** What holds from the start of a session to its end, whatever is set meanwhile. */
export interface RunSettings extends GrammarSettings {
  readonly lang: string;
  readonly continuous: boolean;
  readonly interimResults: boolean;
  readonly maxAlternatives: number;
  readonly processLocally: boolean;
  readonly guardMs: number;
}

const ERROR_OF: Readonly<Record<RecognitionTrouble, SpeechRecognitionErrorCode>> = {
  denied: 'not-allowed',
  absent: 'audio-capture',
  unplugged: 'audio-capture',
  engine: 'service-not-allowed',
  model: 'service-not-allowed',
};

/** A session that is not continuous and hears no speech for this long ends with `no-speech`. */
const NO_SPEECH_MS = 8000;

/** Where nothing else comes near, confidence is 1; two readings of one sound share it. */
function alternativesOf(verdict: Verdict, space: string): readonly SpeechRecognitionAlternative[] {
  const alternative = (words: string, confidence: number): SpeechRecognitionAlternative =>
    new SpeechRecognitionAlternative(space + words, confidence);
  switch (verdict.kind) {
    case 'heard':
      return [alternative(verdict.words, 1)];
    case 'ambiguous':
      return verdict.candidates.map((words) => alternative(words, 1 / verdict.candidates.length));
    case 'notHeard':
      return [];
  }
}

type Fire = (event: Event) => void;

/** One session, from `start()` to `end`. The parameters are those that held when it began. */
export class Run {
  readonly #service: RecognitionService;
  readonly #fire: Fire;
  readonly #settings: RunSettings;
  #results: SpeechRecognitionResult[] = [];
  #session: Session | null = null;
  #state: 'starting' | 'listening' | 'stopping' | 'ended' = 'starting';
  #sounding: 'quiet' | 'sound' | 'speech' = 'quiet';
  #onEnd: () => void = () => undefined;
  #silence: ReturnType<typeof setTimeout> | null = null;

  constructor(settings: RunSettings, service: RecognitionService, fire: Fire) {
    this.#service = service;
    this.#fire = fire;
    const { lang, continuous, interimResults, maxAlternatives, processLocally } = settings;
    const { grammars, others, rivals, lowRisk, phrases, guardMs } = settings;
    const flags = { lang, continuous, interimResults, maxAlternatives, processLocally };
    this.#settings = { ...flags, grammars, others, rivals, lowRisk, phrases, guardMs };
  }

  begin(track: MediaStreamTrack | undefined, onEnd: () => void): void {
    this.#onEnd = onEnd;
    void this.#begin(track);
  }

  async #begin(track: MediaStreamTrack | undefined): Promise<void> {
    const prepared = await this.#service.prepare(track);
    if (this.#state !== 'starting') return this.#end();
    const lang = this.#settings.lang || globalThis.document?.documentElement.lang || 'en-US';
    if (!isSupported(lang)) return this.#noModel(`There is no model for "${lang}".`);
    if (!prepared.ok) return this.#fail(ERROR_OF[prepared.reason], prepared.detail);
    const listened = listenedFor(this.#settings);
    if (!listened.ok) return this.#fail('bad-grammar', listened.detail);
    this.#state = 'listening';
    this.#session = this.#service.open(listened.value, this.#settings.guardMs, (event) => this.#take(event));
    this.#plain('start');
    this.#plain('audiostart');
    this.#waitForSpeech();
  }

  /** The draft has a code of its own where speech must not leave the machine; nothing has started then, or ends. */
  #noModel(why: string): void {
    if (!this.#settings.processLocally) return this.#fail('language-not-supported', why);
    this.#state = 'ended';
    this.#onEnd();
    this.#fire(new SpeechRecognitionErrorEvent('error', { error: 'service-not-allowed', message: why }));
  }

  stop(): void {
    if (this.#state === 'starting') {
      this.#state = 'stopping';
    } else if (this.#state === 'listening') {
      this.#state = 'stopping';
      this.#session?.finish();
    }
  }

  abort(): void {
    if (this.#state === 'ended') return;
    this.#state = 'stopping';
    // Before the session is open nothing has been fired: `#begin` ends it when the microphone answers.
    if (this.#session === null) return;
    this.#closeAudio();
    this.#end();
  }

  #take(event: SessionEvent): void {
    switch (event.kind) {
      case 'soundStart':
        this.#sounding = 'sound';
        return this.#plain('soundstart', event.at);
      case 'speechStart':
        this.#sounding = 'speech';
        this.#clearSilence();
        return this.#plain('speechstart', event.at);
      case 'speechEnd':
        this.#sounding = 'sound';
        return this.#plain('speechend', event.at);
      case 'soundEnd':
        this.#sounding = 'quiet';
        return this.#plain('soundend', event.at);
      case 'interim':
        if (this.#settings.interimResults && event.verdict.kind !== 'notHeard') this.#result(event.verdict, false);
        return;
      case 'final':
        return this.#final(event.verdict);
      case 'finished':
        this.#closeAudio();
        return this.#end();
      case 'refused':
        return this.#fail('bad-grammar', event.detail);
      case 'lost':
        return this.#fail(ERROR_OF[event.trouble], event.detail);
    }
  }

  #final(verdict: Verdict): void {
    // One result is all that a session which is not continuous may give: it hears no more before it tells.
    const last = !this.#settings.continuous;
    if (last) this.#closeAudio();
    if (verdict.kind === 'notHeard') {
      const isTooLoud = verdict.isTooLoud === true;
      this.#fire(new SpeechRecognitionEvent('nomatch', { results: null, isTooLoud }));
    } else this.#result(verdict, true);
    if (last) this.#end();
  }

  #result(verdict: Verdict, isFinal: boolean): void {
    // Put one behind the other, the transcripts of a session must read as one.
    const space = this.#results.length > 0 ? ' ' : '';
    const alternatives = alternativesOf(verdict, space).slice(0, this.#settings.maxAlternatives);
    const result = new SpeechRecognitionResult(alternatives, isFinal);
    const results = new SpeechRecognitionResultList([...this.#results, result]);
    if (isFinal) this.#results.push(result);
    this.#fire(new SpeechRecognitionEvent('result', { resultIndex: results.length - 1, results }));
  }

  #waitForSpeech(): void {
    if (this.#settings.continuous) return;
    this.#silence = setTimeout(() => this.#fail('no-speech', 'Nothing was said.'), NO_SPEECH_MS);
  }

  #clearSilence(): void {
    if (this.#silence !== null) clearTimeout(this.#silence);
    this.#silence = null;
  }

  #fail(error: SpeechRecognitionErrorCode, message: string): void {
    if (this.#state === 'ended') return;
    if (this.#session !== null) this.#closeAudio();
    // Free before it is told: a listener of the error may start anew, and what it starts must not be ended by this.
    this.#onEnd();
    this.#fire(new SpeechRecognitionErrorEvent('error', { error, message }));
    this.#end();
  }

  #closeAudio(): void {
    this.#session?.close();
    this.#session = null;
    if (this.#sounding === 'speech') this.#plain('speechend');
    if (this.#sounding !== 'quiet') this.#plain('soundend');
    this.#sounding = 'quiet';
    this.#plain('audioend');
  }

  #end(): void {
    if (this.#state === 'ended') return;
    this.#state = 'ended';
    this.#clearSilence();
    // Free before `end` is told, so that a listener of it may start anew.
    this.#onEnd();
    this.#plain('end');
  }

  /** The draft wants the moment of the real event as `timeStamp`, as well as it is known. */
  #plain(name: RecognitionEventName, position?: number): void {
    const event = new Event(name);
    if (position !== undefined) Object.defineProperty(event, 'timeStamp', { value: this.#service.timeOf(position) });
    this.#fire(event);
  }
}
