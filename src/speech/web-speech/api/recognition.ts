/**
 * `SpeechRecognition` of the Web Speech API (W3C Community Group draft of 8 May 2026) over the embedded recogniser.
 * It hears given phrases and no free speech: `grammars` (dropped by that draft, needed here) or `phrases` must be set.
 */
import type { AvailabilityStatus, SpeechRecognitionOptions } from './availability';
import { availability, checkActive, installation, isSupported } from './availability';
import type { RecognitionTrouble } from './service';
import type { SpeechRecognitionPhrase, SpeechRecognitionPhraseList } from './grammars';
import { grammarList, phraseArray, SpeechGrammarList } from './grammars';
import { listenedFor } from './listened-for';
import type { SpeechRecognitionErrorCode } from './results';
import {
  SpeechRecognitionAlternative,
  SpeechRecognitionErrorEvent,
  SpeechRecognitionEvent,
  SpeechRecognitionResult,
  SpeechRecognitionResultList,
} from './results';
import type { RecognitionService, Session, SessionEvent } from './service';
import { attribute, defineAttributes, defineHandlers } from './web-idl';
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
type Handler = ((event: Event) => void) | null;
type Handlers = { [Name in RecognitionEventName as `on${Name}`]: Handler };

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

/** None at all would be no result, so the least is one. */
function alternativesMax(value: unknown): number {
  const number = Number(value);
  return Math.max(1, Math.trunc(Number.isFinite(number) ? number : 1));
}

export class SpeechRecognition extends EventTarget implements Handlers {
  declare lang: string;
  declare continuous: boolean;
  declare interimResults: boolean;
  declare processLocally: boolean;
  /** Commands have no punctuation, so it changes nothing here. */
  declare unspokenPunctuation: boolean;
  declare maxAlternatives: number;
  declare grammars: SpeechGrammarList;
  /** An array as the present draft has it, or a list as earlier ones. */
  declare phrases: SpeechRecognitionPhraseList | SpeechRecognitionPhrase[];

  declare onstart: Handler;
  declare onaudiostart: Handler;
  declare onsoundstart: Handler;
  declare onspeechstart: Handler;
  declare onspeechend: Handler;
  declare onsoundend: Handler;
  declare onaudioend: Handler;
  declare onresult: Handler;
  declare onnomatch: Handler;
  declare onerror: Handler;
  declare onend: Handler;

  static {
    defineAttributes(this, {
      lang: attribute('', String),
      continuous: attribute(false, Boolean),
      interimResults: attribute(false, Boolean),
      processLocally: attribute(false, Boolean),
      unspokenPunctuation: attribute(false, Boolean),
      maxAlternatives: attribute(1, alternativesMax),
      grammars: { first: () => new SpeechGrammarList(), take: grammarList },
      phrases: { first: () => [], take: phraseArray },
    });
    defineHandlers(this, RECOGNITION_EVENTS);
  }

  /** What is known so that it is not taken for something of `grammars`, and never told. Not of the draft. */
  others = new SpeechGrammarList();

  /** What a phrase of `grammars` with a slot must not be better said as: longer numbers, say. Not of the draft. */
  rivals = new SpeechGrammarList();

  /** Those of the phrases of `grammars` that do little harm where they were not said. Not of the draft. */
  lowRisk = new SpeechGrammarList();

  /** Milliseconds from now for which sound is still thrown away; read by `start`. Not of the draft. */
  guardMs = 0;

  readonly #service: RecognitionService;
  #run: Run | null = null;

  constructor(service: RecognitionService) {
    super();
    this.#service = service;
  }

  static available(options: SpeechRecognitionOptions): Promise<AvailabilityStatus> {
    return availability(options);
  }

  static install(options: SpeechRecognitionOptions): Promise<boolean> {
    return installation(options);
  }

  /** Listens to the microphone, or to a track of sound. */
  start(track: MediaStreamTrack | undefined = undefined): void {
    if (track !== undefined && (track.kind !== 'audio' || track.readyState !== 'live')) {
      throw new DOMException('The track is no live sound.', 'InvalidStateError');
    }
    checkActive();
    if (this.#run !== null) throw new DOMException('Recognition has already started.', 'InvalidStateError');
    const run = new Run(this, this.#service, (event) => void this.dispatchEvent(event));
    this.#run = run;
    run.begin(track, () => {
      if (this.#run === run) this.#run = null;
    });
  }

  stop(): void {
    this.#run?.stop();
  }

  abort(): void {
    this.#run?.abort();
  }
}

type Fire = (event: Event) => void;

/** One session, from `start()` to `end`. The parameters are those that held when it began. */
class Run {
  readonly #service: RecognitionService;
  readonly #fire: Fire;
  readonly #settings: Pick<
    SpeechRecognition,
    | 'lang'
    | 'continuous'
    | 'interimResults'
    | 'maxAlternatives'
    | 'processLocally'
    | 'grammars'
    | 'others'
    | 'rivals'
    | 'lowRisk'
    | 'phrases'
    | 'guardMs'
  >;
  #results: SpeechRecognitionResult[] = [];
  #session: Session | null = null;
  #state: 'starting' | 'listening' | 'stopping' | 'ended' = 'starting';
  #sounding: 'quiet' | 'sound' | 'speech' = 'quiet';
  #onEnd: () => void = () => undefined;
  #silence: ReturnType<typeof setTimeout> | null = null;

  constructor(recognition: SpeechRecognition, service: RecognitionService, fire: Fire) {
    this.#service = service;
    this.#fire = fire;
    const { lang, continuous, interimResults, maxAlternatives, processLocally } = recognition;
    const { grammars, others, rivals, lowRisk, phrases, guardMs } = recognition;
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
