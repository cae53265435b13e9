/** Gathers the small pieces in which the browser delivers sound into blocks, and measures their loudness. */

export interface GatheredBlock {
  /** Position of the first sample in the stream. */
  readonly at: number;
  readonly samples: Float32Array<ArrayBuffer>;
}

export class BlockGatherer {
  readonly #size: number;
  #block: Float32Array<ArrayBuffer>;
  #filled = 0;
  #at = 0;

  /** Blocks of `size` samples. */
  constructor(size: number) {
    this.#size = size;
    this.#block = new Float32Array(size);
  }

  /** Takes a piece whose first sample lies at `at`; gives the blocks that it completes. */
  push(at: number, piece: Float32Array): readonly GatheredBlock[] {
    // A hole in the stream must show as one, so what was gathered before it is given away short.
    const done: GatheredBlock[] = this.#filled > 0 && this.#at + this.#filled !== at ? [this.#take()] : [];
    for (let taken = 0; taken < piece.length;) {
      if (this.#filled === 0) this.#at = at + taken;
      const part = piece.subarray(taken, taken + this.#size - this.#filled);
      this.#block.set(part, this.#filled);
      this.#filled += part.length;
      taken += part.length;
      if (this.#filled === this.#size) done.push(this.#take());
    }
    return done;
  }

  #take(): GatheredBlock {
    const samples = this.#filled === this.#size ? this.#block : this.#block.slice(0, this.#filled);
    this.#block = new Float32Array(this.#size);
    this.#filled = 0;
    return { at: this.#at, samples };
  }
}
