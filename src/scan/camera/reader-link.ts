/** The page's end of the deciding reader: starts its worker, asks one frame at a time, notices when it fails. */
import { ok, refused } from '../../domain/result';
import type { Result } from '../../domain/result';
import type { Frame, Pass } from './frame';
import type { FromReader, ToReader } from './reader-messages';

/** What the reader made of one frame. */
export type ReaderAnswer = Extract<FromReader, { kind: 'read' }>;

export interface ReaderLink {
  /** Loads the engine; safe to call again after a failure. */
  prepare(): Promise<Result<void, 'engine'>>;
  /** False while a frame is being read: the next one is then not offered. */
  isFree(): boolean;
  /** The frame's pixels are moved to the worker. Null when the reader failed. */
  read(frame: Frame, passes: readonly Pass[]): Promise<ReaderAnswer | null>;
  close(): void;
}

const PREPARE_MS = 20_000;
const READ_MS = 8_000;

/** `url` is the engine's WebAssembly file on the page's own origin; `onFailure` is told once for each failure. */
export function createReaderLink(url: string, onFailure: (detail: string) => void): ReaderLink {
  let worker: Worker | null = null;
  let waiting: ((message: FromReader) => void) | null = null;
  let nextId = 0;

  const settle = (message: FromReader): void => {
    const settled = waiting;
    waiting = null;
    settled?.(message);
  };

  const close = (): void => {
    worker?.terminate();
    worker = null;
    settle({ kind: 'failed', detail: 'The label reader was closed.' });
  };

  /** Sends and waits; a reader that does not answer in time is ended, since it never will. */
  const ask = (message: ToReader, limitMs: number, moved: readonly Transferable[] = []): Promise<FromReader> =>
    new Promise((resolve) => {
      const timer = setTimeout(() => {
        settle({ kind: 'failed', detail: 'The label reader did not answer.' });
      }, limitMs);
      waiting = (answer) => {
        clearTimeout(timer);
        resolve(answer);
      };
      worker?.postMessage(message, [...moved]);
    });

  const open = (): Worker => {
    const opened = new Worker(new URL('./reader.worker.ts', import.meta.url), { type: 'module', name: 'label-reader' });
    opened.onmessage = (event: MessageEvent<FromReader>) => {
      settle(event.data);
    };
    opened.onerror = (event) => {
      settle({ kind: 'failed', detail: event.message || 'The label reader stopped.' });
    };
    return opened;
  };

  return {
    prepare: async () => {
      if (worker !== null) return ok(undefined);
      worker = open();
      const answer = await ask({ kind: 'prepare', url }, PREPARE_MS);
      if (answer.kind === 'ready') return ok(undefined);
      close();
      const detail = answer.kind === 'failed' ? answer.detail : 'unexpected answer';
      return refused('engine', `The label reader did not start (${detail}). Use the keyboard-style scanner.`);
    },
    isFree: () => worker !== null && waiting === null,
    read: async (frame, passes) => {
      if (worker === null || waiting !== null) return null;
      const rgba = frame.rgba.buffer as ArrayBuffer;
      const id = nextId++;
      const { width, height } = frame;
      const answer = await ask({ kind: 'read', id, width, height, rgba, passes }, READ_MS, [rgba]);
      if (answer.kind === 'read' && answer.id === id) return answer;
      const wasOpen = worker !== null;
      close();
      if (wasOpen) onFailure(answer.kind === 'failed' ? answer.detail : 'unexpected answer');
      return null;
    },
    close,
  };
}
