/** The entry for whoever runs the recogniser in a worker of their own, or in none. */
export { answering } from './worker/calls';
export type { FromWorker, ToWorker, WorkerLike } from './worker/calls';
export type { RecogniserCalls } from './worker/recogniser-server';
export { recogniserAnswers } from './worker/recogniser-server';
