/** The deciding reader in a thread of its own: frames in, what they show out. */
import type { ToWorker } from '@stowcall/web-speech/calls';
import { answering } from '@stowcall/web-speech/calls';
import type { ReaderCalls } from './reader-calls';
import { prepareSecondReader, readViews } from './second-reader';

declare const self: DedicatedWorkerGlobalScope;

const take = answering<ReaderCalls>(
  {
    prepare: async (url) => {
      await prepareSecondReader({ url });
    },
    read: async ({ width, height, rgba, passes }) => {
      const startedMs = performance.now();
      const { readings, pass } = await readViews({ width, height, rgba: new Uint8ClampedArray(rgba) }, passes);
      return { readings, pass, tookMs: performance.now() - startedMs };
    },
  },
  (message, transfer) => self.postMessage(message, transfer),
);
self.onmessage = ({ data }: MessageEvent<ToWorker>) => void take(data);
