/** Finds where speech begins and ends in a stream of sound, by how far it stands out from the room. No clock: samples count. */
import type { Tones } from './bands';
import { Bands } from './bands';
import { PreEmphasis, STEP, Steps } from './frames';
import { NoiseFloor } from './noise-floor';

export { STEP };

export interface EndpointerSettings {
  /** Speech must stand out from the room by this much to begin, and by this much to go on, in dB. */
  readonly onsetProminence: number;
  readonly prominence: number;
  /** Nothing softer than this is speech, in dB below full scale. */
  readonly softest: number;
  /** Loud steps among the last `onsetWindow` that make a beginning. */
  readonly onsetSteps: number;
  readonly onsetWindow: number;
  /** Sound kept from before the beginning, in steps: a soft first sound lies there. */
  readonly before: number;
  /** Soft steps that end an utterance. */
  readonly pause: number;
  /** Soft steps after which it has probably ended, and deciding may begin. */
  readonly likelyPause: number;
  /** Loud steps below which a sound is a knock and no speech. */
  readonly shortest: number;
  /** Steps after which a sound is too long for a command. */
  readonly longest: number;
  /** Steps without one soft step among them after which a sound is a machine: speech has gaps. */
  readonly steadiest: number;
}

export const ENDPOINTER: EndpointerSettings = {
  onsetProminence: 10,
  prominence: 8,
  softest: -58,
  onsetSteps: 4,
  onsetWindow: 7,
  before: 30,
  pause: 45,
  likelyPause: 20,
  shortest: 12,
  longest: 800,
  steadiest: 200,
};

/** Milliseconds of silence that end an utterance. */
export const PAUSE_MS = ENDPOINTER.pause * 10;

export interface Utterance {
  readonly samples: Float32Array;
  /** For each step of 10 ms of it, whether it was as loud as speech. */
  readonly loud: readonly boolean[];
  /** Position in the stream, in samples, just after the last loud step. */
  readonly end: number;
  /** Power of the room's noise at each point of the spectrum, as `Tones` has it. */
  readonly noise: Float32Array;
  /** dB by which the louder half of the speech stands over the noise. */
  readonly snr: number;
}

export type Endpoint =
  /** Something sounds. */
  | { readonly kind: 'sound'; readonly at: number }
  /** It lasts long enough to be speech. */
  | { readonly kind: 'speech'; readonly at: number }
  /** The speech has probably ended: this is it so far. */
  | { readonly kind: 'likely'; readonly utterance: Utterance }
  /** The speech goes on after all. */
  | { readonly kind: 'resumed' }
  | { readonly kind: 'ended'; readonly utterance: Utterance }
  /** It was too short for speech, or too long for a command. */
  | { readonly kind: 'dropped'; readonly why: 'short' | 'long'; readonly end: number };

const SILENCE_DB = -100;
const SILENCE = 1e-9;
/** Sound this much softer than the middle of the speech is no speech: 12 dB. */
const ECHO = 10 ** -1.2;

export class Endpointer {
  readonly #settings: EndpointerSettings;
  readonly #bands = new Bands();
  readonly #noiseFloor: NoiseFloor;
  readonly #recent: boolean[] = [];
  /** Everything since the beginning, or the last `before` + `onsetWindow` steps while nothing sounds. */
  #kept: { readonly samples: Float32Array; readonly tones: Tones; readonly isLoud: boolean }[] = [];
  readonly #steps = new Steps();
  #position: number;
  readonly #preEmphasis = new PreEmphasis();
  #state: 'quiet' | 'sound' | 'speech' = 'quiet';
  #loud = 0;
  #soft = 0;
  #steady = 0;
  #end = 0;
  #told = false;

  /** `position` is the place in the stream of the first sample that will come; `room` is what is known of the room. */
  constructor(position = 0, settings: EndpointerSettings = ENDPOINTER, room = new NoiseFloor()) {
    this.#settings = settings;
    this.#position = position;
    this.#noiseFloor = room;
  }

  /** Position of the next sample to be judged. */
  get position(): number {
    return this.#position;
  }

  /** Takes the next samples, any number of them, and says what began and ended in them. */
  push(samples: Float32Array): readonly Endpoint[] {
    const found: Endpoint[] = [];
    for (const step of this.#steps.push(samples)) this.#step(step, found);
    return found;
  }

  /** Ends what is being said now, as if its pause had come; null where nothing is. */
  finish(): Utterance | null {
    const utterance = this.#state === 'speech' ? this.#utterance() : null;
    this.#reset();
    return utterance;
  }

  #step(samples: Float32Array, found: Endpoint[]): void {
    const tones = this.#bands.step(samples);
    const isQuiet = this.#state === 'quiet';
    const wanted = isQuiet ? this.#settings.onsetProminence : this.#settings.prominence;
    const isLoud =
      this.#loudness(samples) > this.#settings.softest && this.#noiseFloor.prominence(tones.levels) > wanted;
    this.#position += STEP;
    // While somebody speaks the room is what it was before: a long sentence would else become the room.
    if (isQuiet && !isLoud) this.#noiseFloor.learn(tones);
    this.#remember(isLoud, tones, samples);
    if (isQuiet) this.#listen(found);
    else this.#follow(isLoud, found);
  }

  #listen(found: Endpoint[]): void {
    const loud = this.#recent.filter(Boolean).length;
    if (loud < this.#settings.onsetSteps) return;
    this.#state = 'sound';
    this.#loud = loud;
    this.#soft = 0;
    this.#steady = 0;
    this.#end = this.#position;
    found.push({ kind: 'sound', at: this.#position - this.#recent.length * STEP });
  }

  #follow(isLoud: boolean, found: Endpoint[]): void {
    if (isLoud) {
      this.#loud += 1;
      this.#end = this.#position;
      if (this.#told) found.push({ kind: 'resumed' });
      this.#told = false;
      this.#soft = 0;
      this.#steady += 1;
    } else {
      this.#soft += 1;
      this.#steady = 0;
    }
    if (this.#state === 'sound' && this.#loud >= this.#settings.shortest) {
      this.#state = 'speech';
      found.push({ kind: 'speech', at: this.#position - this.#kept.length * STEP + this.#settings.before * STEP });
    }
    if (this.#kept.length > this.#settings.longest || this.#steady >= this.#settings.steadiest) {
      found.push({ kind: 'dropped', why: 'long', end: this.#end });
      this.#noiseFloor.replace(this.#kept.slice(-this.#settings.steadiest / 2).map(({ tones }) => tones));
      this.#reset();
    } else if (this.#soft >= this.#settings.pause) {
      found.push(
        this.#state === 'speech'
          ? { kind: 'ended', utterance: this.#utterance() }
          : { kind: 'dropped', why: 'short', end: this.#end },
      );
      this.#reset();
    } else if (this.#state === 'speech' && !this.#told && this.#soft >= this.#settings.likelyPause) {
      this.#told = true;
      found.push({ kind: 'likely', utterance: this.#utterance() });
    }
  }

  #remember(isLoud: boolean, tones: Tones, samples: Float32Array): void {
    this.#recent.push(isLoud);
    if (this.#recent.length > this.#settings.onsetWindow) this.#recent.shift();
    this.#kept.push({ samples, tones, isLoud });
    if (this.#state === 'quiet' && this.#kept.length > this.#settings.before + this.#settings.onsetWindow) {
      this.#kept.shift();
    }
  }

  /** dB of one step after pre-emphasis: that shows an "s" and leaves hum and rumble out. */
  #loudness(samples: Float32Array): number {
    let sum = 0;
    for (const sample of samples) {
      const raised = this.#preEmphasis.filter(sample);
      sum += raised * raised;
    }
    return Math.max(SILENCE_DB, 10 * Math.log10(sum / STEP + 1e-10));
  }

  #utterance(): Utterance {
    // No more of the pause than the engine needs: its length must not depend on when deciding began.
    const steps = this.#kept.length - Math.max(0, this.#soft - this.#settings.likelyPause);
    const kept = this.#kept.slice(0, steps);
    const samples = new Float32Array(steps * STEP);
    for (const [index, step] of kept.entries()) samples.set(step.samples, index * STEP);
    const noise = this.#noiseFloor.noise.slice();
    const powers = kept.map(({ tones }) => total(tones.powers));
    const speech = kept.flatMap(({ isLoud }, index) => (isLoud ? [powers[index] ?? 0] : [])).sort((a, b) => a - b);
    const middle = speech[Math.floor(speech.length / 2)] ?? 0;
    return {
      samples,
      // What is much softer than the speech is its echo, or the room.
      loud: kept.map(({ isLoud }, index) => isLoud && (powers[index] ?? 0) > middle * ECHO),
      end: this.#end,
      noise,
      snr: 10 * Math.log10((middle + SILENCE) / (total(noise) + SILENCE)),
    };
  }

  #reset(): void {
    this.#state = 'quiet';
    this.#recent.length = 0;
    this.#kept = this.#kept.slice(-this.#settings.before);
    this.#loud = 0;
    this.#soft = 0;
    this.#told = false;
  }
}

function total(powers: Float32Array): number {
  return powers.reduce((sum, power) => sum + power, 0) / powers.length;
}
