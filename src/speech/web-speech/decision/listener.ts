/** Listens for phrases in a stream of sound: finds utterances, has each decoded and says what came of it. */
import type { Result } from '@stowcall/grammar';
import { summed } from '../rescoring/speaker-scorer';
import { templateScorerOf } from '../rescoring/template-scorer';
import type { VoiceSample } from '../rescoring/voice-sample';
import { TEMPLATE_WEIGHT, THRESHOLDS } from './certainty';
import { Decider } from './decider';
import type { Endpoint, Utterance } from '../acoustics/endpointer';
import { Endpointer, ENDPOINTER } from '../acoustics/endpointer';
import type { NetworkTrouble, RecognitionEngine } from '../engine/engine';
import { Opening } from '../acoustics/opening';
import { NoiseFloor } from '../acoustics/noise-floor';
import type { Verdict } from './verdict';
import { NOT_HEARD } from './verdict';
import type { ListenFor } from './listen-for';

/** Positions are in samples of the stream. */
export type ListenerEvent =
  | { readonly kind: 'soundStart'; readonly at: number }
  | { readonly kind: 'speechStart'; readonly at: number }
  | { readonly kind: 'speechEnd'; readonly at: number }
  | { readonly kind: 'soundEnd'; readonly at: number }
  /** What it will probably be. */
  | { readonly kind: 'interim'; readonly verdict: Verdict }
  /** `features`: how it was said, where that was asked for and it was a phrase. */
  | { readonly kind: 'final'; readonly verdict: Verdict; readonly end: number; readonly features?: Float32Array };

export interface Block {
  /** Position of the first sample. */
  readonly at: number;
  readonly samples: Float32Array;
}

export class RecognitionListener {
  readonly #decider: Decider;
  readonly #emit: (event: ListenerEvent) => void;
  /** Known from one vocabulary to the next: who answers at once would else be taken for the room. */
  #noiseFloor = new NoiseFloor();
  #endpointer: Endpointer | null = null;
  #from = 0;
  /** Where the present stretch of listening began, and whether what sounds now was sounding then already. */
  #opening = new Opening(0);
  #isPart = false;
  #next: number | null = null;
  /** What was decided of the utterance so far, should its pause turn out to be its end. */
  #early: { readonly end: number; readonly verdict: Verdict } | null = null;
  #state: 'quiet' | 'sound' | 'speech' = 'quiet';

  constructor(engine: RecognitionEngine, emit: (event: ListenerEvent) => void, thresholds = THRESHOLDS) {
    this.#decider = new Decider(engine, thresholds);
    this.#emit = emit;
  }

  /** Whose voice may be heard from now on: how somebody says the phrases. Empty: nobody's that is known. */
  know(samples: readonly VoiceSample[]): void {
    const ear = templateScorerOf(samples);
    this.#decider.speakerScorer = ear === null ? null : summed([{ ear, weight: TEMPLATE_WEIGHT }]);
  }

  /** Listens for these alone, and to nothing that sounded before `from`. What was being said is dropped. */
  open(listened: ListenFor, from: number): Result<void, NetworkTrouble> {
    this.close();
    // The first sample of a stream: a microphone that was not heard before.
    if (from === 0) this.#noiseFloor = new NoiseFloor();
    // Words that cannot be pronounced are told now and not when somebody speaks.
    const used = this.#decider.use(listened);
    if (used.ok) {
      this.#from = from;
      this.#endpointer = this.#begin(from);
      this.#next = null;
    }
    return used;
  }

  /** Hears nothing from now on. */
  close(): void {
    this.#endpointer = null;
    this.#decider.useNothing();
    this.#early = null;
    this.#state = 'quiet';
  }

  /** Decides at once on what was said so far, then hears nothing more. */
  finish(): void {
    const utterance = this.#endpointer?.finish() ?? null;
    if (utterance !== null) this.#ended(utterance);
    this.close();
  }

  push({ at, samples }: Block): void {
    if (this.#endpointer === null) return;
    const skip = Math.max(0, this.#from - at);
    if (skip > 0) this.#opening.push(samples.subarray(0, skip), this.#noiseFloor);
    if (skip >= samples.length) return;
    if (this.#next !== null && at !== this.#next) this.#lost(at);
    else if (this.#next === null) this.#endpointer = this.#begin(at + skip);
    this.#next = at + samples.length;
    for (const endpoint of this.#endpointer.push(skip > 0 ? samples.slice(skip) : samples)) this.#follow(endpoint);
  }

  /** Sound is missing: a command with a hole in it is no command. */
  #lost(at: number): void {
    if (this.#state !== 'quiet') this.#dropped(at);
    this.#endpointer = this.#begin(at);
    this.#early = null;
  }

  #begin(at: number): Endpointer {
    if (this.#opening.at !== at) this.#opening = new Opening(at);
    return new Endpointer(at, ENDPOINTER, this.#noiseFloor);
  }

  #follow(endpoint: Endpoint): void {
    switch (endpoint.kind) {
      case 'sound':
        this.#state = 'sound';
        // Who began before the ear was open was not heard whole: the end of "twenty five stows" is five stows.
        this.#isPart = this.#opening.cuts(endpoint.at);
        this.#emit({ kind: 'soundStart', at: endpoint.at });
        break;
      case 'speech':
        this.#state = 'speech';
        this.#emit({ kind: 'speechStart', at: endpoint.at });
        break;
      case 'likely': {
        const { utterance } = endpoint;
        const verdict = this.#decide(utterance);
        this.#early = { end: utterance.end, verdict };
        this.#emit({ kind: 'interim', verdict });
        break;
      }
      case 'resumed':
        this.#early = null;
        break;
      case 'ended':
        this.#ended(endpoint.utterance);
        break;
      case 'dropped':
        this.#dropped(endpoint.end);
        break;
    }
  }

  /** Who was speaking already when the ear was opened was not heard whole. */
  #decide(utterance: Utterance): Verdict {
    return this.#isPart ? NOT_HEARD : this.#decider.decide(utterance);
  }

  #ended(utterance: Utterance): void {
    const verdict = this.#early?.end === utterance.end ? this.#early.verdict : this.#decide(utterance);
    this.#over(utterance.end);
    const said = { kind: 'final', verdict, end: utterance.end } as const;
    const features = verdict.kind === 'heard' ? this.#decider.describe(utterance) : null;
    this.#emit(features === null ? said : { ...said, features });
    // After it is told, so that nobody waits for it. The answer may have closed the ear or opened it anew.
    this.#decider.rest();
  }

  /** A knock ends without a word; a sound that was taken for speech is answered. */
  #dropped(end: number): void {
    const wasSpeech = this.#state === 'speech';
    this.#over(end);
    if (wasSpeech) this.#emit({ kind: 'final', verdict: NOT_HEARD, end });
  }

  #over(end: number): void {
    if (this.#state === 'speech') this.#emit({ kind: 'speechEnd', at: end });
    if (this.#state !== 'quiet') this.#emit({ kind: 'soundEnd', at: end });
    this.#state = 'quiet';
    this.#early = null;
  }
}
