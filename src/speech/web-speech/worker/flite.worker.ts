/** Runs the voice engine apart from the page, so that speaking never delays the screen. */
import type { FliteMessage } from './flite-server';
import { createFliteServer } from './flite-server';

declare const self: DedicatedWorkerGlobalScope;

const answer = createFliteServer(async (wasmUrl) => {
  const response = await fetch(wasmUrl);
  if (!response.ok) throw new Error(`${wasmUrl}: ${response.status}`);
  // Compiled from the whole file: a server that names another type for it does not matter then.
  return WebAssembly.compile(await response.arrayBuffer());
});

self.onmessage = (event: MessageEvent<FliteMessage>) => {
  void answer(event.data).then((reply) => {
    self.postMessage(reply, reply.kind === 'sound' ? [reply.sound.samples.buffer] : []);
  });
};
