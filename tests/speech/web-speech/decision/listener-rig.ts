/** A listener over an engine that is told what to find, and sounds for it. */
import { ok, refused } from '../../../../src/domain/result';
import { THRESHOLDS } from '../../../../src/speech/web-speech/decision/certainty';
import type { Decoding } from '../../../../src/speech/web-speech/engine/decoding';
import type { RecognitionEngine } from '../../../../src/speech/web-speech/engine/engine';
import type { Listened } from '../../../../src/speech/web-speech/decision/listen-for';
import { listenForTexts } from '../../../../src/speech/web-speech/decision/listen-for';
import type { ListenerEvent } from '../../../../src/speech/web-speech/decision/listener';
import { RecognitionListener } from '../../../../src/speech/web-speech/decision/listener';
import type { Network } from '../../../../src/speech/web-speech/engine/network';

export const SECOND = 16_000;
export const WANTED = ['#JSGF V1.0; grammar test; public <a> = stand by | say again;'];
export const OTHERS = ['#JSGF V1.0; grammar test; public <a> = stand down;'];
export const PHRASES = { wanted: WANTED, others: OTHERS, rivals: [], lowRisk: [] };

/** Compiles JSGF texts and opens the listener for them. */
export function openFor(listener: RecognitionListener, texts: Listened<string>, from: number) {
  const listened = listenForTexts(texts);
  return listened.ok ? listener.open(listened.value, from) : listened;
}

export const found = (words: string, other = false): Decoding => ({
  words: words === '' ? [] : words.split(' '),
  other,
  segments: [],
  score: 0,
  frames: 100,
});

/** A word, its first and last frame, and its number of phones. */
export const segment = (...[word, first, last, phones]: [string, number, number, number]) => {
  return { word, first, last, phones };
};

/** Finds what it is told, one for each decoding; the last one again and again. */
export class FakeEngine implements RecognitionEngine {
  readonly networks: Network[] = [];
  decoded = 0;
  constructor(
    private readonly finds: readonly (Decoding | null)[],
    private readonly unknown = '',
  ) {}

  use(network: Network) {
    if (network.arcs.some(({ word }) => word === this.unknown))
      return refused('unknown-word' as const, `no "${this.unknown}"`);
    this.networks.push(network);
    return ok(undefined);
  }

  decode(): Decoding | null {
    this.decoded += 1;
    return this.finds[Math.min(this.decoded, this.finds.length) - 1] ?? null;
  }

  dispose(): void {}
}

export const speech = (seconds: number) =>
  Float32Array.from({ length: seconds * SECOND }, (_, at) => 0.3 * Math.sin(at * 1.3));
export const silence = (seconds: number) => new Float32Array(seconds * SECOND);

/** What the filler model costs at the beginning: the less, the surer the ear must be. */
export const fillerCostIn = (network: Network | undefined): number | undefined =>
  network?.arcs.find(({ from, word }) => from === network.start && word?.startsWith('phone_'))?.cost;

export const rig = (...finds: (Decoding | null)[]) => rigWith(THRESHOLDS, ...finds);

export function rigWith(thresholds: typeof THRESHOLDS, ...finds: (Decoding | null)[]) {
  const engine = new FakeEngine(finds);
  const events: ListenerEvent[] = [];
  const listener = new RecognitionListener(engine, (event) => events.push(event), thresholds);
  let at = 0;
  const hear = (...parts: Float32Array[]): void => {
    for (const part of parts) {
      for (let start = 0; start < part.length; start += 320) {
        const samples = part.slice(start, start + 320);
        listener.push({ at, samples });
        at += samples.length;
      }
    }
  };
  return {
    engine,
    listener,
    events,
    hear,
    skip: (samples: number) => (at += samples),
    finals: () => events.flatMap((event) => (event.kind === 'final' ? [event.verdict] : [])),
  };
}
