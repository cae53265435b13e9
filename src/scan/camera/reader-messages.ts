/** What the page and the reader's worker say to one another. */
import type { Pass } from './frame';
import type { SecondReading } from './second-reader';

export type ToReader =
  | { readonly kind: 'prepare'; readonly url: string }
  | {
      readonly kind: 'read';
      readonly id: number;
      readonly width: number;
      readonly height: number;
      /** Moved, not copied; the page keeps nothing. */
      readonly rgba: ArrayBuffer;
      readonly passes: readonly Pass[];
    };

export type FromReader =
  | { readonly kind: 'ready' }
  | {
      readonly kind: 'read';
      readonly id: number;
      readonly readings: readonly SecondReading[];
      /** The view that showed something; null when none did. */
      readonly pass: Pass | null;
      /** Time spent reading, in milliseconds. */
      readonly tookMs: number;
    }
  | { readonly kind: 'failed'; readonly detail: string };
