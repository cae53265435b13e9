/** The recogniser's side of the messages between page and worker; also the messages themselves. */
import type { CreateEngineModule } from '../engine/module';
import type { Pronunciation } from '@stowcall/grammar';
import type { EngineTrouble, NetworkTrouble, RecognitionEngine } from '../engine/engine';
import { createEngine } from '../engine/engine';
import type { ListenFor } from '../decision/listen-for';
import type { Block, ListenerEvent } from '../decision/listener';
import { RecognitionListener } from '../decision/listener';
import type { VoiceSample } from '../rescoring/voice-sample';

/** From the page. */
export type RecogniserOrder =
  | {
      readonly kind: 'load';
      readonly wasm: string;
      readonly model: string;
      readonly pronunciations: readonly Pronunciation[];
    }
  /** Sound will come through this port, as `Block`s. */
  | { readonly kind: 'sound'; readonly port: MessagePort }
  /** Listen for these, from this position of the stream on. */
  | { readonly kind: 'open'; readonly session: number; readonly listened: ListenFor; readonly from: number }
  /** Decide on what was said so far, and close. */
  | { readonly kind: 'finish'; readonly session: number }
  | { readonly kind: 'close' }
  /** Whose voice may be heard from now on: how somebody says the phrases, or nothing. */
  | { readonly kind: 'know'; readonly samples: readonly VoiceSample[] };

/** To the page. */
export type RecogniserReport =
  | { readonly kind: 'loaded' }
  | { readonly kind: 'notLoaded'; readonly reason: EngineTrouble; readonly detail: string }
  | { readonly kind: 'notOpened'; readonly session: number; readonly reason: NetworkTrouble; readonly detail: string }
  | { readonly kind: 'event'; readonly session: number; readonly event: ListenerEvent }
  | { readonly kind: 'finished'; readonly session: number };

/** The part of `Worker` that is used. */
export interface RecogniserWorker {
  postMessage(order: RecogniserOrder, transfer?: Transferable[]): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<RecogniserReport>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

export class RecognitionServer {
  readonly #createModule: CreateEngineModule;
  readonly #report: (report: RecogniserReport) => void;
  #engine: RecognitionEngine | null = null;
  #listener: RecognitionListener | null = null;
  #session = 0;
  #samples: readonly VoiceSample[] = [];
  #port: MessagePort | null = null;

  constructor(createModule: CreateEngineModule, report: (report: RecogniserReport) => void) {
    this.#createModule = createModule;
    this.#report = report;
  }

  async take(order: RecogniserOrder): Promise<void> {
    switch (order.kind) {
      case 'load':
        return this.#load(order);
      case 'sound':
        this.#port?.close();
        this.#port = order.port;
        order.port.onmessage = ({ data }: MessageEvent<Block>) => this.#listener?.push(data);
        return;
      case 'open':
        this.#session = order.session;
        this.#open(order.session, order.listened, order.from);
        return;
      case 'finish':
        if (order.session !== this.#session) return;
        this.#listener?.finish();
        this.#report({ kind: 'finished', session: order.session });
        return;
      case 'close':
        this.#listener?.close();
        return;
      case 'know':
        this.#samples = order.samples;
        this.#listener?.know(order.samples);
        return;
    }
  }

  async #load(order: Extract<RecogniserOrder, { kind: 'load' }>): Promise<void> {
    if (this.#engine === null) {
      const made = await createEngine({ createModule: this.#createModule, ...order });
      if (!made.ok) return this.#report({ kind: 'notLoaded', reason: made.reason, detail: made.detail });
      this.#engine = made.value;
      this.#listener = new RecognitionListener(made.value, (event) =>
        this.#report({ kind: 'event', session: this.#session, event }),
      );
      this.#listener.know(this.#samples);
    }
    this.#report({ kind: 'loaded' });
  }

  #open(session: number, listened: ListenFor, from: number): void {
    const opened = this.#listener?.open(listened, from);
    if (opened !== undefined && !opened.ok) {
      this.#report({ kind: 'notOpened', session, reason: opened.reason, detail: opened.detail });
    }
  }
}
