/** Runs the recogniser off the page's thread. */
import createModule from 'soundswallower';
import type { RecogniserOrder } from './recognition-server';
import { RecognitionServer } from './recognition-server';

declare const self: DedicatedWorkerGlobalScope;

const server = new RecognitionServer(
  (settings) => createModule(settings),
  (report) => self.postMessage(report),
);
self.onmessage = ({ data }: MessageEvent<RecogniserOrder>) => void server.take(data);
