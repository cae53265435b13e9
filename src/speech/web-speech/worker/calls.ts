/**
 * Typed calls from a page to a worker of its own: a request and its answer, one at a time and each within a limit of
 * time; orders without an answer; and events that the worker tells by itself. A worker that breaks or stays silent is
 * noticed, ended and replaced by the next call. Neither side needs a DOM.
 */
import type { Result } from '@stowcall/grammar';
import { ok, refused } from '@stowcall/grammar';

/** What a worker can be asked for, by name: from what, to what. */
export type Calls = { readonly [name: string]: (request: never) => unknown };
type Name<C extends Calls> = keyof C & string;
export type RequestOf<C extends Calls, N extends Name<C>> = C[N] extends (request: infer R) => unknown ? R : never;
export type AnswerOf<C extends Calls, N extends Name<C>> = C[N] extends (request: never) => infer A ? A : never;

/** An order has no answer, and so no number. */
export interface ToWorker {
  readonly id: number | null;
  readonly name: string;
  readonly request: unknown;
}

export type FromWorker =
  | { readonly kind: 'answer'; readonly id: number; readonly answer: unknown }
  | { readonly kind: 'failed'; readonly id: number; readonly detail: string }
  | { readonly kind: 'event'; readonly event: unknown };

/** The part of `Worker` that is used. */
export interface WorkerLike {
  postMessage(message: ToWorker, transfer: Transferable[]): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<FromWorker>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

/**
 * Why there is no answer. `failed`: the worker threw something and goes on. `late`: it did not answer in time, and
 * `broken`: it stopped; in both cases it was ended. `closed`: the page ended it.
 */
export type CallTrouble = 'failed' | 'late' | 'broken' | 'closed';

export interface LineOptions<Event> {
  readonly makeWorker: () => WorkerLike;
  readonly onEvent?: (event: Event) => void;
  /** Told once for each worker that was late or broke, after every call that waited was answered. */
  readonly onLost?: (trouble: 'late' | 'broken', detail: string) => void;
}

export interface CallOptions {
  readonly limitMs: number;
  /** Moved to the worker and not copied. */
  readonly transfer?: readonly Transferable[];
}

interface Waiting extends CallOptions {
  readonly name: string;
  readonly request: unknown;
  readonly settle: (answer: Result<unknown, CallTrouble>) => void;
}

/** The page's end. */
export class WorkerLine<C extends Calls, Event = never> {
  readonly #options: LineOptions<Event>;
  #worker: WorkerLike | null = null;
  #waiting: Waiting[] = [];
  #current: { readonly id: number; readonly call: Waiting; readonly timer: ReturnType<typeof setTimeout> } | null =
    null;
  #lastId = 0;

  constructor(options: LineOptions<Event>) {
    this.#options = options;
  }

  get isOpen(): boolean {
    return this.#worker !== null;
  }

  /** True while an answer is waited for. */
  get isBusy(): boolean {
    return this.#current !== null;
  }

  /** Asks, once those that were asked before have been answered; makes the worker where there is none. Never rejects. */
  call<N extends Name<C>>(
    name: N,
    request: RequestOf<C, N>,
    options: CallOptions,
  ): Promise<Result<AnswerOf<C, N>, CallTrouble>> {
    return new Promise((resolve) => {
      const settle = (answer: Result<unknown, CallTrouble>): void =>
        resolve(answer as Result<AnswerOf<C, N>, CallTrouble>);
      this.#waiting.push({ ...options, name, request, settle });
      this.#next();
    });
  }

  /** Tells the worker something at once; nothing where there is none. */
  order<N extends Name<C>>(name: N, request: RequestOf<C, N>, transfer: readonly Transferable[] = []): void {
    this.#worker?.postMessage({ id: null, name, request }, [...transfer]);
  }

  /** Ends the worker; what waits for it is answered with `closed`. */
  close(): void {
    this.#end('closed', 'it was closed');
  }

  #next(): void {
    if (this.#current !== null) return;
    const call = this.#waiting.shift();
    if (call === undefined) return;
    this.#lastId += 1;
    const id = this.#lastId;
    const timer = setTimeout(() => this.#lose('late', 'it does not answer'), call.limitMs);
    this.#current = { id, call, timer };
    try {
      this.#worker ??= this.#open();
      this.#worker.postMessage({ id, name: call.name, request: call.request }, [...(call.transfer ?? [])]);
    } catch (error) {
      this.#lose('broken', String(error));
    }
  }

  #open(): WorkerLike {
    const worker = this.#options.makeWorker();
    const ifCurrent = (work: () => void): void => {
      if (this.#worker === worker) work();
    };
    worker.onmessage = ({ data }) => ifCurrent(() => this.#take(data));
    worker.onerror = ({ message }) => ifCurrent(() => this.#lose('broken', message || 'it stopped'));
    return worker;
  }

  #take(message: FromWorker): void {
    if (message.kind === 'event') return this.#options.onEvent?.(message.event as Event);
    if (this.#current?.id !== message.id) return;
    const { call, timer } = this.#current;
    clearTimeout(timer);
    this.#current = null;
    call.settle(message.kind === 'answer' ? ok(message.answer) : refused('failed', message.detail));
    this.#next();
  }

  #lose(trouble: 'late' | 'broken', detail: string): void {
    this.#end(trouble, detail);
    this.#options.onLost?.(trouble, detail);
  }

  #end(trouble: Exclude<CallTrouble, 'failed'>, detail: string): void {
    this.#worker?.terminate();
    this.#worker = null;
    const lost = [...(this.#current === null ? [] : [this.#current.call]), ...this.#waiting];
    if (this.#current !== null) clearTimeout(this.#current.timer);
    this.#current = null;
    this.#waiting = [];
    for (const { settle } of lost) settle(refused(trouble, detail));
  }
}

/** An answer of which something is moved to the page and not copied. */
export class Moved<T> {
  constructor(
    readonly answer: T,
    readonly transfer: readonly Transferable[],
  ) {}
}

type Answer<T> = T | Moved<T>;
/** What answers each call. */
export type Answers<C extends Calls> = {
  readonly [N in Name<C>]: (request: RequestOf<C, N>) => Answer<AnswerOf<C, N>> | Promise<Answer<AnswerOf<C, N>>>;
};
export type Post = (message: FromWorker, transfer: Transferable[]) => void;

/** The worker's end: does what a message asks for, and posts the answer to one that wants it. */
export function answering<C extends Calls>(answers: Answers<C>, post: Post): (message: ToWorker) => Promise<void> {
  return async ({ id, name, request }) => {
    try {
      const answer = await answers[name as Name<C>](request as RequestOf<C, Name<C>>);
      if (id === null) return;
      if (answer instanceof Moved) post({ kind: 'answer', id, answer: answer.answer }, [...answer.transfer]);
      else post({ kind: 'answer', id, answer }, []);
    } catch (error) {
      if (id === null) breakDown(error);
      else post({ kind: 'failed', id, detail: error instanceof Error ? error.message : String(error) }, []);
    }
  };
}

/** An order that fails has nobody to tell. Thrown where nobody catches it, it reaches the page as the worker's own error. */
function breakDown(error: unknown): void {
  queueMicrotask(() => {
    throw error;
  });
}
