/** The page's half of the voice engine: one worker, one sentence at a time, urgent ones first. */
import { ok, refused } from '@stowcall/grammar';
import type { Result } from '@stowcall/grammar';
import type { FliteFailure, FliteRequest } from './flite';
import type { FliteAnswer, FliteMessage } from '../worker/flite-server';
import type { Sound } from './flite-wav';
import type { SynthesisEngine } from './engine';

/** The part of `Worker` that is used. */
export interface WorkerLike {
  postMessage(message: FliteMessage): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<FliteAnswer>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

/** A sentence takes a fraction of a second and loading a few: a worker that is silent for this long is lost. */
const RENDER_MS = 15_000;
const LOAD_MS = 60_000;

type Work =
  { readonly kind: 'load'; readonly wasmUrl: string } | { readonly kind: 'render'; readonly request: FliteRequest };

interface Job {
  readonly work: Work;
  readonly settle: (answer: FliteAnswer) => void;
}

/** The page's own worker. */
export function makeFliteWorker(): WorkerLike {
  return new Worker(new URL('../worker/flite.worker.ts', import.meta.url), { type: 'module', name: 'voice' });
}

/** The engine at `wasmUrl`, loaded by the first `prepare` or `render` and again after a loss. */
export function createFliteEngine(wasmUrl: string, makeWorker: () => WorkerLike = makeFliteWorker): SynthesisEngine {
  const line = new WorkerLine(makeWorker);
  const load = async (): Promise<Result<void, 'engine-failed'>> => {
    const answer = await line.ask({ kind: 'load', wasmUrl });
    return answer.kind === 'refused' ? refused('engine-failed', answer.detail) : ok(undefined);
  };
  return {
    prepare: load,
    render: async (request): Promise<Result<Sound, FliteFailure>> => {
      if (!line.loaded) {
        const loaded = await load();
        if (!loaded.ok) return loaded;
      }
      const answer = await line.ask({ kind: 'render', request });
      if (answer.kind === 'sound') return ok(answer.sound);
      return answer.kind === 'refused' ? refused(answer.reason, answer.detail) : refused('engine-failed', 'No sound.');
    },
  };
}

class WorkerLine {
  /** True while the worker holds a compiled engine. */
  loaded = false;
  readonly #makeWorker: () => WorkerLike;
  #worker: WorkerLike | null = null;
  #waiting: Job[] = [];
  #current: { readonly id: number; readonly job: Job; readonly timer: ReturnType<typeof setTimeout> } | null = null;
  #lastId = 0;

  constructor(makeWorker: () => WorkerLike) {
    this.#makeWorker = makeWorker;
  }

  ask(work: Work): Promise<FliteAnswer> {
    return new Promise((settle) => {
      this.#waiting.push({ work, settle });
      this.#next();
    });
  }

  #next(): void {
    if (this.#current !== null) return;
    const job = this.#waiting.shift();
    if (job === undefined) return;
    this.#lastId += 1;
    const id = this.#lastId;
    const timer = setTimeout(() => this.#lose('it does not answer'), job.work.kind === 'load' ? LOAD_MS : RENDER_MS);
    this.#current = { id, job, timer };
    try {
      this.#worker ??= this.#open();
      this.#worker.postMessage({ id, ...job.work });
    } catch (error) {
      this.#lose(String(error));
    }
  }

  #open(): WorkerLike {
    const worker = this.#makeWorker();
    worker.onmessage = ({ data }) => this.#settle(data);
    worker.onerror = (event) => this.#lose(event.message);
    return worker;
  }

  #settle(answer: FliteAnswer): void {
    if (this.#current === null || this.#current.id !== answer.id) return;
    const { job, timer } = this.#current;
    clearTimeout(timer);
    this.#current = null;
    if (answer.kind === 'loaded') this.loaded = true;
    job.settle(answer);
    this.#next();
  }

  /** The worker is given up with all the work it had; the next `render` loads a new one. */
  #lose(why: string): void {
    this.#worker?.terminate();
    this.#worker = null;
    this.loaded = false;
    if (this.#current !== null) clearTimeout(this.#current.timer);
    const lost = [...(this.#current === null ? [] : [this.#current.job]), ...this.#waiting];
    this.#current = null;
    this.#waiting = [];
    const detail = `The voice engine was lost (${why}). Read the screen instead.`;
    for (const { settle } of lost) settle({ id: 0, kind: 'refused', reason: 'engine-failed', detail });
  }
}
