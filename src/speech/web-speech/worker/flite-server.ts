/** The voice engine's side of the calls between page and worker; also the calls themselves. */
import type { Result } from '@stowcall/grammar';
import { ok, refused } from '@stowcall/grammar';
import type { FliteFailure, FliteRequest } from '../synthesis/flite';
import { synthesize } from '../synthesis/flite';
import type { Sound } from '../synthesis/flite-wav';
import type { Answers } from './calls';
import { Moved } from './calls';

export type FliteCalls = {
  readonly load: (wasmUrl: string) => Result<void, 'engine-failed'>;
  readonly render: (request: FliteRequest) => Result<Sound, FliteFailure>;
};

/** What answers those calls. `compile` fetches and compiles the engine; a failure is tried again at the next load. */
export function fliteAnswers(compile: (wasmUrl: string) => Promise<WebAssembly.Module>): Answers<FliteCalls> {
  let module: WebAssembly.Module | null = null;
  return {
    load: async (wasmUrl) => {
      try {
        module ??= await compile(wasmUrl);
        return ok(undefined);
      } catch (error) {
        return failed(`The voice engine could not be loaded (${String(error)}). Read the screen instead.`);
      }
    },
    render: async (request) => {
      if (module === null) return failed('The voice engine is not loaded yet. Read the screen instead.');
      const sound = await synthesize(module, request);
      return sound.ok ? new Moved(sound, [sound.value.samples.buffer]) : sound;
    },
  };
}

function failed(detail: string) {
  return refused('engine-failed', detail);
}
