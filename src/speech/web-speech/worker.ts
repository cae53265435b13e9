/** The entry for whoever runs the recogniser in a worker of their own, or in none. */
export type { RecogniserWorker } from './worker/recogniser-server';
export { RecognitionServer } from './worker/recogniser-server';
