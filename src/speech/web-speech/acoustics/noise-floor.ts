/** What the room sounds like while nobody speaks, band by band, and how far a sound stands out from it. */
import { POINTS } from './fourier';
import type { Tones } from './bands';
import { BANDS } from './bands';

/** The room is what it was in the middle of its last 3 s. */
const STEPS = 300;
const EVERY = 10;
/** Steps before anything is known of a new room. */
const NEWEST = 20;
/** Rooms that are quieter than any microphone are taken for this, in dB. */
const QUIETEST_DB = -75;
/** Speech stands out in some bands and not in others: the most prominent ones count. */
const PROMINENT = 4;
/** No band counts for more: one shrill tone is no speech. */
const PROMINENCE_MAX = 25;

/** How much the newest step weighs in the noise: 1 of about half a second. */
const NEWS = 0.02;

export class NoiseFloor {
  readonly #heard: Float32Array[] = [];
  readonly #floor = new Float32Array(BANDS);
  #noise = new Float32Array(POINTS / 2 + 1);
  #age = 0;

  /** Takes one step of the room. Speech is not the room. */
  learn({ levels, powers }: Tones): void {
    this.#heard.push(levels);
    const news = Math.max(NEWS, 1 / this.#heard.length);
    this.#noise = this.#noise.map((power, point) => power + news * ((powers[point] ?? 0) - power));
    if (this.#heard.length > STEPS) this.#heard.shift();
    // PartInspection at anew ten times a second: sorting is the dearest part of a step.
    if (this.#age % EVERY === 0) this.#refresh();
    this.#age += 1;
  }

  /** The room is another one: it sounds like these last steps. */
  replace(tones: readonly Tones[]): void {
    this.#heard.length = 0;
    for (const one of tones.slice(-STEPS)) this.learn(one);
    this.#refresh();
  }

  /** dB by which the four most prominent bands stand over the room, in the mean; 0 while nothing is known of it. */
  prominence(levels: Float32Array): number {
    if (this.#heard.length < NEWEST) return 0;
    const over = levels.map((level, band) => Math.min(PROMINENCE_MAX, Math.max(0, level - (this.#floor[band] ?? 0))));
    over.sort((a, b) => b - a);
    let sum = 0;
    for (let place = 0; place < PROMINENT; place += 1) sum += over[place] ?? 0;
    return sum / PROMINENT;
  }

  /** Power of the room's noise at each point, as `Tones` has it. */
  get noise(): Float32Array {
    return this.#noise;
  }

  #refresh(): void {
    const middle = Math.floor(this.#heard.length / 2);
    for (let band = 0; band < BANDS; band += 1) {
      const sorted = Float32Array.from(this.#heard, (levels) => levels[band] ?? QUIETEST_DB).sort();
      this.#floor[band] = Math.max(QUIETEST_DB, sorted[middle] ?? QUIETEST_DB);
    }
  }
}
