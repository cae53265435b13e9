/** Keeps rendered sentences, so that what is said again sounds at once; the oldest unused go first. */
import type { Result } from '@stowcall/grammar';
import type { FliteFailure, FliteRequest } from './flite';
import type { Sound } from './flite-wav';
import type { SynthesisEngine } from './engine';

/** Five minutes of speech at 16 kHz: about 19 MB. */
const CACHE_SECONDS = 300;

interface Kept {
  readonly rendering: Promise<Result<Sound, FliteFailure>>;
  /** Null until it is made. */
  seconds: number | null;
}

/** The same engine behind a memory of at most `limit` seconds of sound. Failures are not kept. */
export function cacheSentences(engine: SynthesisEngine, limit: number = CACHE_SECONDS): SynthesisEngine {
  // A Map keeps the order of insertion: the first is the one that was not used for longest.
  const kept = new Map<string, Kept>();
  const trim = () => {
    let total = 0;
    for (const { seconds } of kept.values()) total += seconds ?? 0;
    for (const [key, { seconds }] of kept) {
      if (total <= limit) return;
      if (seconds === null) continue;
      kept.delete(key);
      total -= seconds;
    }
  };
  const make = (key: string, request: FliteRequest) => {
    const entry: Kept = { rendering: engine.render(request), seconds: null };
    kept.set(key, entry);
    void entry.rendering.then((result) => {
      if (result.ok) entry.seconds = result.value.samples.length / result.value.sampleRate;
      else if (kept.get(key) === entry) kept.delete(key);
      trim();
    });
    return entry.rendering;
  };
  return {
    prepare: () => engine.prepare(),
    render: (request) => {
      const key = `${request.voice} ${request.stretch} ${request.text}`;
      const entry = kept.get(key);
      kept.delete(key);
      if (entry === undefined) return make(key, request);
      kept.set(key, entry);
      return entry.rendering;
    },
  };
}
