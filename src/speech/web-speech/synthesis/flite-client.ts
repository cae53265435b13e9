/** The page's half of the voice engine: one worker, one sentence at a time in the order in which they are asked for. */
import type { Result } from '@stowcall/grammar';
import { ok, refused } from '@stowcall/grammar';
import type { FliteFailure } from './flite';
import { makeFliteWorker } from '../api/workers';
import type { CallTrouble, WorkerLike } from '../worker/calls';
import { WorkerLine } from '../worker/calls';
import type { FliteCalls } from '../worker/flite-server';
import type { SynthesisEngine } from './engine';

/** A sentence takes a fraction of a second and loading a few: a worker that is silent for this long is lost. */
const RENDER_MS = 15_000;
const LOAD_MS = 60_000;

/** The engine at `wasmUrl`, loaded by the first `prepare` or `render` and again after a loss. */
export function createFliteEngine(wasmUrl: string, makeWorker: () => WorkerLike = makeFliteWorker): SynthesisEngine {
  let isLoaded = false;
  const line = new WorkerLine<FliteCalls>({
    makeWorker,
    onLost: () => {
      isLoaded = false;
    },
  });
  const load = async (): Promise<Result<void, 'engine-failed'>> => {
    const loaded = answered(await line.call('load', wasmUrl, { limitMs: LOAD_MS }));
    isLoaded = loaded.ok && line.isOpen;
    return loaded;
  };
  return {
    prepare: load,
    render: async (request) => {
      if (!isLoaded) {
        const loaded = await load();
        if (!loaded.ok) return loaded;
      }
      return answered(await line.call('render', request, { limitMs: RENDER_MS }));
    },
  };
}

/** What the worker answered; a worker that gave no answer is the engine's failure. */
function answered<T, R extends FliteFailure>(
  answer: Result<Result<T, R>, CallTrouble>,
): Result<T, R | 'engine-failed'> {
  if (answer.ok) return answer.value.ok ? ok(answer.value.value) : answer.value;
  return refused('engine-failed', `The voice engine was lost (${answer.detail}). Read the screen instead.`);
}
