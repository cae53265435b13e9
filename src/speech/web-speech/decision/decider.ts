/** Decides on one utterance: what was said, whether that is certain enough, and how it was said. */
import type { Result } from '@stowcall/grammar';
import { featuresOf } from '../acoustics/cepstra';
import type { SpeakerScorer } from '../rescoring/speaker-scorer';
import { accepts, hasSlot } from '../engine/automaton';
import type { Thresholds } from './certainty';
import {
  allPhonesIn,
  DEAF_SNR,
  firstPassFor,
  LOUD_SNR,
  NOISY_SNR,
  phonesIn,
  marginsFor,
  secondPassFor,
  QUIET_SNR,
  RIVAL_COST,
  supportedBy,
} from './certainty';
import type { Decoding } from '../engine/decoding';
import { soundFor } from '../acoustics/denoise';
import type { Utterance } from '../acoustics/endpointer';
import type { NetworkTrouble, RecognitionEngine } from '../engine/engine';
import type { Network } from '../engine/network';
import { networkOf } from '../engine/network';
import type { ListenFor } from './listen-for';
import type { Verdict } from './verdict';
import { judge, NOT_HEARD, phraseOf, TOO_LOUD } from './verdict';
import type { Risk } from './risk';

export class Decider {
  /** Knows the voice that may be heard; null where nobody's is known. */
  speakerScorer: SpeakerScorer | null = null;
  readonly #engine: RecognitionEngine;
  readonly #thresholds: Readonly<Record<Risk, Thresholds>>;
  #listened: ListenFor | null = null;
  /** Whether the engine has the network for finding in quiet: it need not be given again then. */
  #isSet = false;

  constructor(engine: RecognitionEngine, thresholds: Readonly<Record<Risk, Thresholds>>) {
    this.#engine = engine;
    this.#thresholds = thresholds;
  }

  /** Listens for these from now on, or for nothing. Words that cannot be pronounced are told here. */
  use(listened: ListenFor): Result<void, NetworkTrouble> {
    const used = this.#engine.use(networkOf(listened.all, firstPassFor(QUIET_SNR, this.#thresholds)));
    this.#isSet = used.ok;
    this.#listened = used.ok ? listened : null;
    return used;
  }

  useNothing(): void {
    this.#listened = null;
  }

  /** Gives the engine its first network back, which takes a while, so that the next utterance need not wait for it. */
  rest(): void {
    if (!this.#isSet && this.#listened !== null) this.use(this.#listened);
  }

  /** Decodes, then once more with the phrase that was found made dearer: only what wins both times is sure. */
  decide(utterance: Utterance): Verdict {
    if (this.#listened === null) return NOT_HEARD;
    const { wanted, all, lowRisk, rivals, isSampled } = this.#listened;
    const { loud, snr } = utterance;
    const refusal = snr < LOUD_SNR ? TOO_LOUD : NOT_HEARD;
    if (snr < DEAF_SNR) return refusal;
    // What is kept for a long time is better said in a quieter moment.
    if (isSampled && snr < NOISY_SNR) return TOO_LOUD;
    const sound = soundFor(utterance);
    const firstPass = firstPassFor(snr, this.#thresholds);
    const isReady = this.#isSet && snr >= QUIET_SNR;
    const found = isReady ? this.#engine.decode(sound) : this.#search(networkOf(all, firstPass), sound);
    const first = phraseOf(found, wanted, loud);
    if (found === null || first === null) return refusal;
    const risk = lowRisk !== null && accepts(lowRisk, found.words) ? 'low' : 'high';
    const isOfMany = hasSlot(all, found.words);
    const phones = isOfMany ? phonesIn(found) : allPhonesIn(found);
    const plain = marginsFor(this.#thresholds[risk], snr, phones);
    const margins = supportedBy(plain, this.#support(first, { samples: sound, loud }), firstPass);
    // Only now: they cost time, and what they stand against is found without them.
    const trial = {
      handicap: { words: found.words, cost: margins.rival },
      rivals: rivals !== null && isOfMany ? { automaton: rivals, cost: margins.rival + RIVAL_COST } : null,
    };
    const again = this.#search(networkOf(all, secondPassFor(margins), trial), sound);
    const verdict = judge(first, phraseOf(again, wanted, loud));
    return verdict.kind === 'notHeard' ? refusal : verdict;
  }

  /** How a phrase was said, where that is asked for. */
  describe(utterance: Utterance): Float32Array | null {
    if (this.#listened?.isSampled !== true) return null;
    return featuresOf({ samples: soundFor(utterance), loud: utterance.loud });
  }

  /** What the speaker scorer says for this phrase. A sample is taken by the engine's margins alone. */
  #support(phrase: string, said: { samples: Float32Array; loud: readonly boolean[] }): number {
    if (this.speakerScorer === null || this.#listened?.isSampled === true) return 0;
    return this.speakerScorer.scores(featuresOf(said), [phrase])[0] ?? 0;
  }

  /** Where the network is refused the engine hears nothing, which is what it should then do. */
  #search(network: Network, sound: Float32Array): Decoding | null {
    this.#isSet = false;
    return this.#engine.use(network).ok ? this.#engine.decode(sound) : null;
  }
}
