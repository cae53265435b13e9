/**
 * `SpeechRecognition` of the Web Speech API (W3C Community Group draft of 8 May 2026) over the embedded recogniser.
 * It hears given phrases and no free speech: `grammars` (dropped by that draft, needed here) or `phrases` must be set.
 */
import type { RecognitionTrouble } from './service';
import type { SpeechRecognitionPhrase } from './grammars';
import { grammarTexts, jsgfTexts, SpeechGrammarList, SpeechRecognitionPhraseList } from './grammars';
import type { SpeechRecognitionErrorCode } from './results';
import {
  SpeechRecognitionAlternative,
  SpeechRecognitionErrorEvent,
  SpeechRecognitionEvent,
  SpeechRecognitionResult,
  SpeechRecognitionResultList,
} from './results';
import type { RecognitionService, Session, SessionEvent } from './service';
import type { Verdict } from '../decision/verdict';

export type AvailabilityStatus = 'unavailable' | 'downloadable' | 'downloading' | 'available';

export interface SpeechRecognitionOptions {
  readonly langs: readonly string[];
  readonly processLocally?: boolean;
  /** What the speech will be like; this engine hears commands. */
  readonly quality?: 'command' | 'dictation' | 'conversation';
}

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
    case 'match':
      return [alternative(verdict.words, 1)];
    case 'unsure':
      return verdict.candidates.map((words) => alternative(words, 1 / verdict.candidates.length));
    case 'nomatch':
      return [];
  }
}

/** Letters, digits and hyphens as BCP 47 forms them; the meaning of the parts is not looked at. */
function checkLanguageTags(langs: readonly string[]): void {
  const bad = langs.find((lang) => !/^[a-z]{1,8}(-[a-z\d]{1,8})*$/i.test(lang));
  if (bad !== undefined) throw new DOMException(`"${bad}" is not a language tag.`, 'SyntaxError');
}

/** A page that is shown no more hears nothing. Outside of a page there is no document. */
function checkActive(): void {
  if (globalThis.document?.defaultView !== null) return;
  throw new DOMException('This page is shown no more.', 'InvalidStateError');
}

function isSupported(lang: string): boolean {
  return /^en(-us)?$/i.test(lang);
}

/** Throws where the page may not ask, or asks for what is no language. */
function canHear({ langs, quality = 'command' }: SpeechRecognitionOptions): boolean {
  checkActive();
  checkLanguageTags(langs);
  return quality === 'command' && langs.length > 0 && langs.every(isSupported);
}

export class SpeechRecognition extends EventTarget implements Handlers {
  lang = '';
  continuous = false;
  interimResults = false;
  processLocally = false;
  grammars = new SpeechGrammarList();
  /** A list as earlier drafts have it, or an array as the present one. */
  phrases: SpeechRecognitionPhraseList | SpeechRecognitionPhrase[] = new SpeechRecognitionPhraseList();

  onstart: Handler = null;
  onaudiostart: Handler = null;
  onsoundstart: Handler = null;
  onspeechstart: Handler = null;
  onspeechend: Handler = null;
  onsoundend: Handler = null;
  onaudioend: Handler = null;
  onresult: Handler = null;
  onnomatch: Handler = null;
  onerror: Handler = null;
  onend: Handler = null;

  /** What is known so that it is not taken for something of `grammars`, and never told. Not of the draft. */
  others = new SpeechGrammarList();

  /** What a phrase of `grammars` with a slot must not be better said as: longer numbers, say. Not of the draft. */
  rivals = new SpeechGrammarList();

  /** Those of the phrases of `grammars` that do little harm where they were not said. Not of the draft. */
  lowRisk = new SpeechGrammarList();

  /** Milliseconds from now for which sound is still thrown away; read by `start`. Not of the draft. */
  guardMs = 0;

  readonly #service: RecognitionService;
  #maxAlternatives = 1;
  #run: Run | null = null;

  constructor(service: RecognitionService) {
    super();
    this.#service = service;
  }

  get maxAlternatives(): number {
    return this.#maxAlternatives;
  }

  /** Web IDL `unsigned long`; none at all would be no result, so the least is one. */
  set maxAlternatives(value: number) {
    this.#maxAlternatives = Math.max(1, Math.trunc(Number.isFinite(value) ? value : 1));
  }

  /** The engine lies in the page: what can be heard at all is heard locally. */
  static available(options: SpeechRecognitionOptions): Promise<AvailabilityStatus> {
    return Promise.resolve(canHear(options) ? 'available' : 'unavailable');
  }

  /** Nothing is ever fetched: true where everything is here already. */
  static install(options: SpeechRecognitionOptions): Promise<boolean> {
    return Promise.resolve(canHear(options));
  }

  start(track?: MediaStreamTrack): void {
    if (track !== undefined && (track.kind !== 'audio' || track.readyState !== 'live')) {
      throw new DOMException('The track is no live sound.', 'InvalidStateError');
    }
    checkActive();
    if (this.#run !== null) throw new DOMException('Recognition has already started.', 'InvalidStateError');
    const run = new Run(this, this.#service, (name, event) => this.#fire(name, event));
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

  #fire(name: RecognitionEventName, event: Event): void {
    this[`on${name}`]?.call(this, event);
    this.dispatchEvent(event);
  }
}

type Fire = (name: RecognitionEventName, event: Event) => void;

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
    const texts = jsgfTexts(this.#settings.grammars, this.#settings.phrases);
    if (!texts.ok) return this.#fail('bad-grammar', texts.detail);
    this.#state = 'listening';
    const others = grammarTexts(this.#settings.others);
    if (!others.ok) return this.#fail('bad-grammar', others.detail);
    const rivals = grammarTexts(this.#settings.rivals);
    if (!rivals.ok) return this.#fail('bad-grammar', rivals.detail);
    const lowRisk = grammarTexts(this.#settings.lowRisk);
    if (!lowRisk.ok) return this.#fail('bad-grammar', lowRisk.detail);
    const grammars = { wanted: texts.value, others: others.value, rivals: rivals.value, lowRisk: lowRisk.value };
    this.#session = this.#service.open(grammars, this.#settings.guardMs, (event) => this.#take(event));
    this.#plain('start');
    this.#plain('audiostart');
    this.#waitForSpeech();
  }

  /** The draft has a code of its own where speech must not leave the machine; nothing has started then, or ends. */
  #noModel(why: string): void {
    if (!this.#settings.processLocally) return this.#fail('language-not-supported', why);
    this.#state = 'ended';
    this.#onEnd();
    this.#fire('error', new SpeechRecognitionErrorEvent('error', { error: 'service-not-allowed', message: why }));
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
        if (this.#settings.interimResults && event.verdict.kind !== 'nomatch') this.#result(event.verdict, false);
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
    if (verdict.kind === 'nomatch') {
      const isTooLoud = verdict.isTooLoud === true;
      this.#fire('nomatch', new SpeechRecognitionEvent('nomatch', { results: null, isTooLoud }));
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
    this.#fire('result', new SpeechRecognitionEvent('result', { resultIndex: results.length - 1, results }));
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
    this.#fire('error', new SpeechRecognitionErrorEvent('error', { error, message }));
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
    this.#fire(name, event);
  }
}
