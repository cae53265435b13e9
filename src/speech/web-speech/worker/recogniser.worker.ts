/** Runs the recogniser off the page's thread. */
import createModule from 'soundswallower';
import type { RecogniserCalls } from './recogniser-server';
import { recogniserAnswers } from './recogniser-server';
import type { ToWorker } from './calls';
import { answering } from './calls';

declare const self: DedicatedWorkerGlobalScope;

const answers = recogniserAnswers(
  (settings) => createModule(settings),
  (event) => self.postMessage({ kind: 'event', event }),
);
const take = answering<RecogniserCalls>(answers, (message, transfer) => self.postMessage(message, transfer));
self.onmessage = ({ data }: MessageEvent<ToWorker>) => void take(data);
