/** The recogniser's side of the calls between page and worker; also the calls themselves. */
import type { Pronunciation, Result } from '@stowcall/grammar';
import { ok } from '@stowcall/grammar';
import type { CreateEngineModule } from '../engine/module';
import type { EngineTrouble, NetworkTrouble } from '../engine/engine';
import { createEngine } from '../engine/engine';
import type { ListenFor } from '../decision/listen-for';
import type { Block, ListenerEvent } from '../decision/listener';
import { RecognitionListener } from '../decision/listener';
import type { VoiceSample } from '../rescoring/voice-sample';
import type { Answers } from './calls';

export interface EngineFiles {
  readonly wasm: string;
  readonly model: string;
  readonly pronunciations: readonly Pronunciation[];
}

export interface SessionOpening {
  readonly session: number;
  readonly listened: ListenFor;
  /** Position of the stream; what sounded before it is thrown away. */
  readonly from: number;
}

export type RecogniserCalls = {
  readonly load: (files: EngineFiles) => Result<void, EngineTrouble>;
  /** Sound will come through this port, as `Block`s. */
  readonly sound: (port: MessagePort) => void;
  readonly open: (opening: SessionOpening) => void;
  /** Decide on what was said so far, and close. */
  readonly finish: (session: number) => void;
  readonly close: (session: number) => void;
  /** Whose voice may be heard from now on: how somebody says the phrases, or nothing. */
  readonly know: (samples: readonly VoiceSample[]) => void;
};

/** What is told of a session while its worker lives. */
export type WorkerEvent =
  | ListenerEvent
  | { readonly kind: 'refused'; readonly reason: NetworkTrouble; readonly detail: string }
  /** Decided on everything that was said before `finish`. */
  | { readonly kind: 'finished' };

export interface RecogniserEvent {
  readonly session: number;
  readonly event: WorkerEvent;
}

/** What answers those calls; `tell` is given what happens in the session that is open. */
export function recogniserAnswers(
  createModule: CreateEngineModule,
  tell: (event: RecogniserEvent) => void,
): Answers<RecogniserCalls> {
  let listener: RecognitionListener | null = null;
  let session = 0;
  let known: readonly VoiceSample[] = [];
  let port: MessagePort | null = null;
  return {
    load: async (files) => {
      if (listener !== null) return ok(undefined);
      const made = await createEngine({ createModule, ...files });
      if (!made.ok) return made;
      listener = new RecognitionListener(made.value, (event) => tell({ session, event }));
      listener.know(known);
      return ok(undefined);
    },
    sound: (given) => {
      port?.close();
      port = given;
      given.onmessage = ({ data }: MessageEvent<Block>) => listener?.push(data);
    },
    open: (opening) => {
      session = opening.session;
      const opened = listener?.open(opening.listened, opening.from);
      if (opened?.ok !== false) return;
      tell({ session, event: { kind: 'refused', reason: opened.reason, detail: opened.detail } });
    },
    finish: (finished) => {
      if (finished !== session) return;
      listener?.finish();
      tell({ session, event: { kind: 'finished' } });
    },
    close: () => listener?.close(),
    know: (samples) => {
      known = samples;
      listener?.know(samples);
    },
  };
}
