/** The page's end of the deciding reader: starts its worker, asks one frame at a time, notices when it fails. */
import type { CallTrouble, WorkerLike } from '@stowcall/web-speech/calls';
import { WorkerLine } from '@stowcall/web-speech/calls';
import { ok, refused } from '../../domain/result';
import type { Refused, Result } from '../../domain/result';
import type { Frame, Pass } from './frame';
import type { ReaderAnswer, ReaderCalls } from './reader-calls';

export interface ReaderLink {
  /** Loads the engine; safe to call again after a failure. */
  prepare(): Promise<Result<void, 'engine'>>;
  /** False while a frame is being read: the next one is then not offered. */
  isFree(): boolean;
  /** The frame's pixels are moved to the worker. Null when the reader failed. */
  read(frame: Frame, passes: readonly Pass[]): Promise<ReaderAnswer | null>;
  close(): void;
}

export interface ReaderLinkOptions {
  /** The engine's WebAssembly file on the page's own origin. */
  readonly url: string;
  /** Told once for each failure. */
  readonly onFailure: (detail: string) => void;
  readonly makeWorker?: () => WorkerLike;
}

const PREPARE_MS = 20_000;
const READ_MS = 8_000;

function makeReaderWorker(): Worker {
  return new Worker(new URL('./reader.worker.ts', import.meta.url), { type: 'module', name: 'label-reader' });
}

/** Nothing is started before `prepare`. */
export function createReaderLink({ url, onFailure, makeWorker = makeReaderWorker }: ReaderLinkOptions): ReaderLink {
  const line = new WorkerLine<ReaderCalls>({ makeWorker });
  return {
    prepare: async () => {
      if (line.isOpen) return ok(undefined);
      const prepared = await line.call('prepare', url, { limitMs: PREPARE_MS });
      if (prepared.ok) return ok(undefined);
      line.close();
      const why = sentenceOf(prepared);
      return refused('engine', `The label reader did not start (${why}). Use the keyboard-style scanner.`);
    },
    isFree: () => line.isOpen && !line.isBusy,
    read: async (frame, passes) => {
      if (!line.isOpen || line.isBusy) return null;
      const { width, height } = frame;
      const rgba = frame.rgba.buffer as ArrayBuffer;
      const read = await line.call('read', { width, height, rgba, passes }, { limitMs: READ_MS, transfer: [rgba] });
      if (read.ok) return read.value;
      // A reader that threw something is not trusted with the next frame.
      line.close();
      if (read.reason !== 'closed') onFailure(sentenceOf(read));
      return null;
    },
    close: () => line.close(),
  };
}

function sentenceOf({ reason, detail }: Refused<CallTrouble>): string {
  if (reason === 'late') return 'The label reader did not answer.';
  return reason === 'closed' ? 'The label reader was closed.' : detail;
}
