/** Listens for phrases in a stream of sound: finds utterances, has each decoded and says what came of it. */
import type { Result } from '../../domain/result';
import { ok } from '../../domain/result';
import {
  DEAF_SNR,
  findingFor,
  LOUD_SNR,
  NOISY_SNR,
  phonesIn,
  proofFor,
  QUIET_SNR,
  THRESHOLDS,
} from './recognition-certainty';
import type { Decoding } from './recognition-decoding';
import { denoise } from './recognition-denoise';
import type { Endpoint, Utterance } from './recognition-endpointer';
import { Endpointer, ENDPOINTER } from './recognition-endpointer';
import type { NetworkTrouble, RecognitionEngine } from './recognition-engine';
import type { Automaton } from './recognition-automaton';
import { accepts, automatonOf } from './recognition-automaton';
import { parseJsgf } from './recognition-jsgf';
import type { Network } from './recognition-network';
import { networkOf } from './recognition-network';
import { Opening } from './recognition-opening';
import { Room } from './recognition-room';
import { featuresOf } from '../second-ear/features';
import type { VoiceSample } from '../voice-sample';
import type { Verdict } from './recognition-verdict';
import { judge, NO_MATCH, phraseOf, TOO_LOUD } from './recognition-verdict';

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

/** JSGF texts; their public rules can be said. */
export interface Grammars {
  readonly wanted: readonly string[];
  /** Known so that they are not taken for what is wanted, and never told. */
  readonly others: readonly string[];
  /** Those of the wanted phrases that do little harm where they were not said: less certainty is enough for them. */
  readonly lowRisk: readonly string[];
  /** Set where a phrase is to be described when it was said. It must then stand out more clearly than a command. */
  readonly isSampled?: true;
}

export interface Block {
  /** Position of the first sample. */
  readonly at: number;
  readonly samples: Float32Array;
}

const AUTOMATA_MAX = 100;

export class RecognitionListener {
  /** How the one whose voice may be heard says the phrases; empty where nobody's is known. */
  known: readonly VoiceSample[] = [];
  readonly #engine: RecognitionEngine;
  readonly #emit: (event: ListenerEvent) => void;
  readonly #thresholds: typeof THRESHOLDS;
  /** Known from one vocabulary to the next: who answers at once would else be taken for the room. */
  #room = new Room();
  #endpointer: Endpointer | null = null;
  readonly #made = new Map<string, Automaton>();
  /** Whether the engine has the network for finding in quiet: it need not be given again then. */
  #isSet = false;
  #automata: { readonly wanted: Automaton; readonly all: Automaton; readonly lowRisk: Automaton | null } | null = null;
  #isSampled = false;
  #from = 0;
  /** Where the present stretch of listening began, and whether what sounds now was sounding then already. */
  #opening = new Opening(0);
  #isPart = false;
  #next: number | null = null;
  /** What was decided of the utterance so far, should its pause turn out to be its end. */
  #early: { readonly end: number; readonly verdict: Verdict } | null = null;
  #state: 'quiet' | 'sound' | 'speech' = 'quiet';

  constructor(engine: RecognitionEngine, emit: (event: ListenerEvent) => void, thresholds = THRESHOLDS) {
    this.#engine = engine;
    this.#emit = emit;
    this.#thresholds = thresholds;
  }

  /** Listens for these alone, and to nothing that sounded before `from`. What was being said is dropped. */
  open(grammars: Grammars, from: number): Result<void, NetworkTrouble> {
    this.close();
    const wanted = this.#automatonOf(grammars.wanted);
    if (!wanted.ok) return wanted;
    const all = grammars.others.length === 0 ? wanted : this.#automatonOf([...grammars.wanted, ...grammars.others]);
    if (!all.ok) return all;
    const lowRisk = grammars.lowRisk.length === 0 ? ok(null) : this.#automatonOf(grammars.lowRisk);
    if (!lowRisk.ok) return lowRisk;
    // The first sample of a stream: a microphone that was not heard before.
    if (from === 0) this.#room = new Room();
    // Words that cannot be pronounced are told now and not when somebody speaks.
    const used = this.#set(all.value);
    if (used.ok) {
      this.#automata = { wanted: wanted.value, all: all.value, lowRisk: lowRisk.value };
      this.#isSampled = grammars.isSampled === true;
      this.#from = from;
      this.#endpointer = this.#begin(from);
      this.#next = null;
    }
    return used;
  }

  #set(all: Automaton): Result<void, NetworkTrouble> {
    const used = this.#engine.use(networkOf(all, findingFor(QUIET_SNR, this.#thresholds)));
    this.#isSet = used.ok;
    return used;
  }

  /** The kiosk comes back to the same vocabularies again and again, and making an automaton takes a while. */
  #automatonOf(texts: readonly string[]): Result<Automaton, 'bad-grammar'> {
    const key = texts.join('\n');
    const known = this.#made.get(key);
    if (known !== undefined) return ok(known);
    const grammars = [];
    for (const text of texts) {
      const grammar = parseJsgf(text);
      if (!grammar.ok) return grammar;
      grammars.push(grammar.value);
    }
    const made = automatonOf(grammars);
    if (made.ok) {
      if (this.#made.size >= AUTOMATA_MAX) this.#made.clear();
      this.#made.set(key, made.value);
    }
    return made;
  }

  /** Hears nothing from now on. */
  close(): void {
    this.#endpointer = null;
    this.#automata = null;
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
    if (skip > 0) this.#opening.push(samples.subarray(0, skip), this.#room);
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
    return new Endpointer(at, ENDPOINTER, this.#room);
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

  /** Decodes, then once more with the phrase that was found made dearer: only what wins both times is sure. */
  #decide(utterance: Utterance): Verdict {
    const { loud, snr } = utterance;
    if (this.#automata === null) return NO_MATCH;
    const { wanted, all, lowRisk } = this.#automata;
    if (this.#isPart) return NO_MATCH;
    const refusal = snr < LOUD_SNR ? TOO_LOUD : NO_MATCH;
    if (snr < DEAF_SNR) return refusal;
    // What is kept for a long time is better said in a quieter moment.
    if (this.#isSampled && snr < NOISY_SNR) return TOO_LOUD;
    const sound = soundFor(utterance);
    const isReady = this.#isSet && snr >= QUIET_SNR;
    const found = isReady
      ? this.#engine.decode(sound)
      : this.#search(networkOf(all, findingFor(snr, this.#thresholds)), sound);
    const first = phraseOf(found, wanted, loud);
    if (found === null || first === null) return refusal;
    const risk = lowRisk !== null && accepts(lowRisk, found.words) ? 'low' : 'high';
    const { loop, lead } = proofFor(this.#thresholds[risk], snr, phonesIn(found));
    const again = this.#search(networkOf(all, loop, { words: found.words, cost: lead }), sound);
    const verdict = judge(first, phraseOf(again, wanted, loud));
    return verdict.kind === 'nomatch' ? refusal : verdict;
  }

  /** Where the network is refused the engine hears nothing, which is what it should then do. */
  #search(network: Network, sound: Float32Array): Decoding | null {
    this.#isSet = false;
    return this.#engine.use(network).ok ? this.#engine.decode(sound) : null;
  }

  #ended(utterance: Utterance): void {
    const verdict = this.#early?.end === utterance.end ? this.#early.verdict : this.#decide(utterance);
    this.#over(utterance.end);
    const said = { kind: 'final', verdict, end: utterance.end } as const;
    const isDescribed = this.#isSampled && verdict.kind === 'match';
    this.#emit(isDescribed ? { ...said, features: describe(utterance) } : said);
    // After it is told, so that nobody waits for it. The answer may have closed the ear or opened it anew.
    if (!this.#isSet && this.#automata !== null) this.#set(this.#automata.all);
  }

  /** A knock ends without a word; a sound that was taken for speech is answered. */
  #dropped(end: number): void {
    const wasSpeech = this.#state === 'speech';
    this.#over(end);
    if (wasSpeech) this.#emit({ kind: 'final', verdict: NO_MATCH, end });
  }

  #over(end: number): void {
    if (this.#state === 'speech') this.#emit({ kind: 'speechEnd', at: end });
    if (this.#state !== 'quiet') this.#emit({ kind: 'soundEnd', at: end });
    this.#state = 'quiet';
    this.#early = null;
  }
}

/** The utterance as the engine hears it: without the room's noise where there is any to speak of. */
function soundFor({ samples, noise, snr }: Utterance): Float32Array {
  return snr < QUIET_SNR ? denoise(samples, noise) : samples;
}

function describe(utterance: Utterance): Float32Array {
  return featuresOf({ samples: soundFor(utterance), loud: utterance.loud });
}
