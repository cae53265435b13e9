/** The deciding reader in a thread of its own: frames in, what they show out. */
import type { FromReader, ToReader } from './reader-messages';
import { prepareSecondReader, readViews } from './second-reader';

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

function answer(message: FromReader): void {
  scope.postMessage(message);
}

async function serve(message: ToReader): Promise<void> {
  if (message.kind === 'prepare') {
    await prepareSecondReader({ url: message.url });
    answer({ kind: 'ready' });
    return;
  }
  const { id, width, height, rgba, passes } = message;
  const startedMs = performance.now();
  const { readings, pass } = await readViews({ width, height, rgba: new Uint8ClampedArray(rgba) }, passes);
  answer({ kind: 'read', id, readings, pass, tookMs: performance.now() - startedMs });
}

scope.onmessage = (event: MessageEvent<ToReader>) => {
  serve(event.data).catch((error: unknown) => {
    answer({ kind: 'failed', detail: error instanceof Error ? error.message : String(error) });
  });
};
