/**
 * `SpeechRecognition` of the Web Speech API (W3C Community Group draft of 8 May 2026) over the embedded recogniser.
 * It hears given phrases and no free speech: `grammars` (dropped by that draft, needed here) or `phrases` must be set.
 */
import type { AvailabilityStatus, SpeechRecognitionOptions } from './availability';
import { availability, checkActive, installation } from './availability';
import type { SpeechRecognitionPhrase, SpeechRecognitionPhraseList } from './grammars';
import { grammarList, phraseArray, SpeechGrammarList } from './grammars';
import type { RecognitionEventName } from './recognition-run';
import { RECOGNITION_EVENTS, Run } from './recognition-run';
import type { RecognitionService } from './service';
import { attribute, defineAttributes, defineHandlers } from './web-idl';

type Handler = ((event: Event) => void) | null;
type Handlers = { [Name in RecognitionEventName as `on${Name}`]: Handler };

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
