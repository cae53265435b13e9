/** What the page asks of the reader's worker. */
import type { Pass } from './frame';
import type { SecondReading } from './second-reader';

export interface FrameToRead {
  readonly width: number;
  readonly height: number;
  /** Moved, not copied; the page keeps nothing. */
  readonly rgba: ArrayBuffer;
  readonly passes: readonly Pass[];
}

/** What the reader made of one frame. */
export interface ReaderAnswer {
  readonly readings: readonly SecondReading[];
  /** The view that showed something; null when none did. */
  readonly pass: Pass | null;
  /** Time spent reading, in milliseconds. */
  readonly tookMs: number;
}

export type ReaderCalls = {
  /** Loads the engine from this address on the page's own origin. */
  readonly prepare: (url: string) => void;
  readonly read: (frame: FrameToRead) => ReaderAnswer;
};
