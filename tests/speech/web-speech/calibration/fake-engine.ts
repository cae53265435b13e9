/** An engine that hears "go", or else nothing but other speech. */
import { ok } from '../../../../src/domain/result';
import type { Network, RecognitionEngine } from '@stowcall/web-speech/core';

/** Hears "go" while the filler model costs `least` more than it, or more, and "go" is dearer by `leadMost` at most. */
export class FakeEngine implements RecognitionEngine {
  searches = 0;
  #network: Network | null = null;

  constructor(
    private readonly least: number,
    private readonly leadMost = Number.POSITIVE_INFINITY,
  ) {}

  use(network: Network) {
    this.#network = network;
    return ok(undefined);
  }

  decode() {
    this.searches += 1;
    const arcs = this.#network?.arcs ?? [];
    const loop = arcs.find(({ word, from }) => word === 'phone_aa' && from === this.#network?.start);
    const rival = Math.max(0, ...arcs.map(({ word, cost }) => (word === null ? cost : 0)));
    const isNear = loop === undefined || loop.cost - rival >= this.least;
    const words = isNear && rival <= this.leadMost ? ['go'] : [];
    const segments = [{ word: 'go(2)', first: 20, last: 50, phones: 2 }];
    return { words, other: words.length === 0, segments, score: 0, frames: 100 };
  }

  dispose(): void {}
}
