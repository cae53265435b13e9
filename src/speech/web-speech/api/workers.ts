/** The package's own workers. Their addresses stand here in full, for that is how a bundler finds them. */

/** Runs the recogniser off the page's thread. */
export function makeRecogniserWorker(): Worker {
  return new Worker(new URL('../worker/recogniser.worker.ts', import.meta.url), { type: 'module', name: 'recogniser' });
}

/** Runs the voice engine there. */
export function makeFliteWorker(): Worker {
  return new Worker(new URL('../worker/flite.worker.ts', import.meta.url), { type: 'module', name: 'voice' });
}
