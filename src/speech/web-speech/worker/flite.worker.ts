/** Runs the voice engine apart from the page, so that speaking never delays the screen. */
import type { FliteCalls } from './flite-server';
import { fliteAnswers } from './flite-server';
import type { ToWorker } from './calls';
import { answering } from './calls';

declare const self: DedicatedWorkerGlobalScope;

const answers = fliteAnswers(async (wasmUrl) => {
  const response = await fetch(wasmUrl);
  if (!response.ok) throw new Error(`${wasmUrl}: ${response.status}`);
  // Compiled from the whole file: a server that names another type for it does not matter then.
  return WebAssembly.compile(await response.arrayBuffer());
});
const take = answering<FliteCalls>(answers, (message, transfer) => self.postMessage(message, transfer));
self.onmessage = ({ data }: MessageEvent<ToWorker>) => void take(data);
