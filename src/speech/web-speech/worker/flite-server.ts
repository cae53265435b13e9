/** The worker's half of the voice engine: answers messages, holds the compiled engine. */
import type { FliteFailure, FliteRequest } from '../synthesis/flite';
import { synthesize } from '../synthesis/flite';
import type { Sound } from '../synthesis/flite-wav';

export type FliteMessage =
  | { readonly id: number; readonly kind: 'load'; readonly wasmUrl: string }
  | { readonly id: number; readonly kind: 'render'; readonly request: FliteRequest };

export type FliteAnswer =
  | { readonly id: number; readonly kind: 'loaded' }
  | { readonly id: number; readonly kind: 'sound'; readonly sound: Sound }
  | { readonly id: number; readonly kind: 'refused'; readonly reason: FliteFailure; readonly detail: string };

/** Answers each message once. `compile` fetches and compiles the engine; a failure is tried again at the next load. */
export function createFliteServer(
  compile: (wasmUrl: string) => Promise<WebAssembly.Module>,
): (message: FliteMessage) => Promise<FliteAnswer> {
  let module: WebAssembly.Module | null = null;
  return async (message) => {
    const { id } = message;
    if (message.kind === 'load') {
      try {
        module ??= await compile(message.wasmUrl);
        return { id, kind: 'loaded' };
      } catch (error) {
        return refusal(id, `The voice engine could not be loaded (${String(error)}). Read the screen instead.`);
      }
    }
    if (module === null) return refusal(id, 'The voice engine is not loaded yet. Read the screen instead.');
    const sound = await synthesize(module, message.request);
    if (!sound.ok) return { id, kind: 'refused', reason: sound.reason, detail: sound.detail };
    return { id, kind: 'sound', sound: sound.value };
  };
}

function refusal(id: number, detail: string): FliteAnswer {
  return { id, kind: 'refused', reason: 'engine-failed', detail };
}
