/** Port: what reads labels. Camera and keyboard-style scanner both deliver raw readings through it. */
import type { Result } from '../domain/result';
import type { Reader } from '../domain/sighting';

export const SYMBOLOGIES = ['code128', 'code39', 'dataMatrix', 'qr', 'unknown'] as const;
export type Symbology = (typeof SYMBOLOGIES)[number];

/** Linear codes have one check character at most; the others correct errors and are as good as never read wrongly. */
export function isLinear(symbology: Symbology): boolean {
  return symbology !== 'dataMatrix' && symbology !== 'qr';
}

export interface RawReading {
  readonly payload: string;
  readonly symbology: Symbology;
  readonly reader: Reader;
}

export type SightingTrouble = 'denied' | 'absent' | 'unplugged' | 'engine';

export interface SightingPort {
  start(): Promise<Result<void, SightingTrouble>>;
  stop(): void;
  /** Called once for each act of scanning: a label that stays in view is not delivered again until it has been away. */
  onReading(listener: (reading: RawReading) => void): () => void;
  onTrouble(listener: (trouble: SightingTrouble, detail: string) => void): () => void;
}
