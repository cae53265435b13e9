/** Keeps rendered sentences, so that what was made ready sounds at once; the oldest unused go first. */
import type { Result } from '../../domain/result';
import type { FliteFailure, FliteRequest } from './flite';
import type { Sound } from './flite-wav';
import type { SynthesisEngine, Urgency } from './synthesis-engine';

/** Five minutes of speech at 16 kHz: about 19 MB. */
export const CACHE_SECONDS = 300;

interface Kept {
  readonly rendering: Promise<Result<Sound, FliteFailure>>;
  /** Null until it is made. */
  seconds: number | null;
  readonly urgency: Urgency;
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
  const make = (key: string, request: FliteRequest, urgency: Urgency) => {
    const entry: Kept = { rendering: engine.render(request, urgency), seconds: null, urgency };
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
    render: (request, urgency) => {
      const key = `${request.voice} ${request.stretch} ${request.text}`;
      const entry = kept.get(key);
      kept.delete(key);
      // One that still waits behind others is asked for again when it is wanted now.
      const waits = entry !== undefined && entry.seconds === null && entry.urgency === 'later' && urgency === 'now';
      if (entry === undefined || waits) return make(key, request, urgency);
      kept.set(key, entry);
      return entry.rendering;
    },
  };
}
