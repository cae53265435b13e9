/** Runs the recogniser off the page's thread. */
import createModule from 'soundswallower';
import type { RecogniserOrder } from './recogniser-server';
import { RecognitionServer } from './recogniser-server';

declare const self: DedicatedWorkerGlobalScope;

const server = new RecognitionServer(
  (settings) => createModule(settings),
  (report) => self.postMessage(report),
);
self.onmessage = ({ data }: MessageEvent<RecogniserOrder>) => void server.take(data);
