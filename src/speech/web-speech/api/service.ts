/** The page's half of the recogniser: one worker, one microphone, one session at a time. */
import { ok, refused } from '@stowcall/grammar';
import type { Pronunciation, Result } from '@stowcall/grammar';
import type { VoiceSample } from '../rescoring/voice-sample';
import type { Microphone, MicrophoneOptions, MicrophoneTrouble } from '../microphone/microphone';
import { SAMPLE_RATE } from '../engine/engine';
import type { ListenFor } from '../decision/listen-for';
import { Listeners } from './listeners';
import type { WorkerLike } from '../worker/calls';
import { WorkerLine } from '../worker/calls';
import type { RecogniserCalls, RecogniserEvent, WorkerEvent } from '../worker/recogniser-server';

/** Why nothing can be heard: no permission, no microphone, one that was pulled out, no engine, no model. */
export type RecognitionTrouble = 'denied' | 'absent' | 'unplugged' | 'engine' | 'model';

/** What a session tells. */
export type SessionEvent =
  | WorkerEvent
  /** Microphone or engine are lost, and the session with them. */
  | { readonly kind: 'lost'; readonly trouble: RecognitionTrouble; readonly detail: string };

export interface Session {
  /** Decides on what was said so far, then ends with `finished`. */
  finish(): void;
  /** Hears nothing more and tells nothing more. */
  close(): void;
}

export interface RecognitionService {
  /** Loads the engine and opens the microphone (or `track`). Safe to call again, also after trouble. */
  prepare(track?: MediaStreamTrack): Promise<Result<void, RecognitionTrouble>>;
  /** Listens for these, from `guardMs` from now on. The former session hears no more. */
  open(listened: ListenFor, guardMs: number, sink: (event: SessionEvent) => void): Session;
  /** Whose voice may be heard from now on: how somebody says the phrases. Empty: nobody's that is known. */
  know(samples: readonly VoiceSample[]): void;
  /** The moment of a stream position, on the page's clock (`performance.now()`). */
  timeOf(position: number): number;
  onLevel(listener: (level: number) => void): () => void;
  onTrouble(listener: (trouble: RecognitionTrouble, detail: string) => void): () => void;
}

export interface ServiceOptions {
  readonly wasm: string;
  /** Address of the model's folder, without a slash at its end. */
  readonly model: string;
  readonly pronunciations: readonly Pronunciation[];
  readonly makeWorker: () => WorkerLike;
  readonly openMicrophone: (options: MicrophoneOptions) => Promise<Result<Microphone, MicrophoneTrouble>>;
  readonly now: () => number;
}

/** A model of ten megabytes from this machine's own disk: a worker that needs longer is lost. */
const LOAD_MS_MAX = 60_000;

export function createRecognitionService(options: ServiceOptions): RecognitionService {
  return new Service(options);
}

class Service implements RecognitionService {
  readonly #options: ServiceOptions;
  readonly #levels = new Listeners<[level: number]>();
  readonly #troubles = new Listeners<[trouble: RecognitionTrouble, detail: string]>();
  readonly #line: WorkerLine<RecogniserCalls, RecogniserEvent>;
  #loaded: Promise<Result<void, RecognitionTrouble>> | null = null;
  #microphone: { readonly is: Microphone; readonly track: MediaStreamTrack | undefined } | null = null;
  #opening: Promise<Result<void, RecognitionTrouble>> = Promise.resolve(ok(undefined));
  #session: { readonly id: number; readonly sink: (event: SessionEvent) => void } | null = null;
  #lastSession = 0;
  #samples: readonly VoiceSample[] = [];

  constructor(options: ServiceOptions) {
    this.#options = options;
    this.#line = new WorkerLine({
      makeWorker: options.makeWorker,
      onEvent: ({ session, event }) => {
        // What the worker found before a session was closed is told to nobody.
        if (this.#session?.id === session) this.#session.sink(event);
      },
      onLost: (trouble, detail) => {
        this.#dropWorker();
        // One that never loaded is told by `prepare`.
        if (trouble === 'broken') this.#lose('engine', stopped(detail));
      },
    });
  }

  prepare(track?: MediaStreamTrack): Promise<Result<void, RecognitionTrouble>> {
    // One after the other: two calls at once must not open two microphones.
    this.#opening = this.#opening.then(async () => {
      this.#loaded ??= this.#load();
      const loaded = await this.#loaded;
      if (!loaded.ok) {
        this.#dropWorker();
        return loaded;
      }
      return this.#openMicrophone(track);
    });
    return this.#opening;
  }

  open(listened: ListenFor, guardMs: number, sink: (event: SessionEvent) => void): Session {
    this.#lastSession += 1;
    const id = this.#lastSession;
    this.#session = { id, sink };
    const from = this.#position() + Math.round((guardMs * SAMPLE_RATE) / 1000);
    this.#line.order('open', { session: id, listened, from });
    return {
      finish: () => {
        if (this.#session?.id === id) this.#line.order('finish', id);
      },
      close: () => {
        if (this.#session?.id !== id) return;
        this.#session = null;
        this.#line.order('close', id);
      },
    };
  }

  know(samples: readonly VoiceSample[]): void {
    this.#samples = samples;
    this.#line.order('know', samples);
  }

  timeOf(position: number): number {
    return this.#options.now() - ((this.#position() - position) * 1000) / SAMPLE_RATE;
  }

  onLevel(listener: (level: number) => void): () => void {
    return this.#levels.add(listener);
  }

  onTrouble(listener: (trouble: RecognitionTrouble, detail: string) => void): () => void {
    return this.#troubles.add(listener);
  }

  #position(): number {
    return this.#microphone?.is.position() ?? 0;
  }

  async #load(): Promise<Result<void, RecognitionTrouble>> {
    const { wasm, model, pronunciations } = this.#options;
    const loading = this.#line.call('load', { wasm, model, pronunciations }, { limitMs: LOAD_MS_MAX });
    // A worker that takes the place of a lost one must know what that one knew.
    if (this.#samples.length > 0) this.#line.order('know', this.#samples);
    const answer = await loading;
    if (answer.ok) return answer.value;
    if (answer.reason !== 'late') return refused('engine', stopped(answer.detail));
    return refused('engine', 'The recogniser did not start in time. Reload this page.');
  }

  async #openMicrophone(track: MediaStreamTrack | undefined): Promise<Result<void, RecognitionTrouble>> {
    if (this.#microphone !== null && this.#microphone.track === track) return ok(undefined);
    this.#closeMicrophone();
    const channel = new MessageChannel();
    this.#line.order('sound', channel.port2, [channel.port2]);
    try {
      const opened = await this.#options.openMicrophone({
        to: channel.port1,
        onLevel: (level) => this.#levels.tell(level),
        onTrouble: (trouble, detail) => {
          this.#microphone = null;
          this.#lose(trouble, detail);
        },
        ...(track === undefined ? {} : { track }),
      });
      if (!opened.ok) return opened;
      this.#microphone = { is: opened.value, track };
      return ok(undefined);
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      return refused('engine', `Sound cannot be taken in (${why}). Reload this page.`);
    }
  }

  #closeMicrophone(): void {
    this.#microphone?.is.close();
    this.#microphone = null;
  }

  #dropWorker(): void {
    this.#line.close();
    this.#loaded = null;
    // Its port went with it, so the microphone must be opened anew.
    this.#closeMicrophone();
  }

  #lose(trouble: RecognitionTrouble, detail: string): void {
    const session = this.#session;
    this.#session = null;
    session?.sink({ kind: 'lost', trouble, detail });
    this.#troubles.tell(trouble, detail);
  }
}

function stopped(why: string): string {
  return `The recogniser stopped (${why}). Reload this page.`;
}
