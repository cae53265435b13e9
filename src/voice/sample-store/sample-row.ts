/** The rows of the sample store: one for each sample. What comes back from the disk is not trusted until it passed here. */
import { refused, type Result } from '../../domain/result';
import type { VoiceSample } from '@stowcall/web-speech/core';
import { parseVoiceSample, SAMPLE_WIDTH } from '@stowcall/web-speech/core';

/** One more whenever the features of a sample come to mean something else. */
const ROW_VERSION = 1;

export interface SampleRow {
  readonly owner: string;
  readonly words: string;
  readonly version: number;
  /** Numbers in each frame, so that features of another width are never taken for ours. */
  readonly width: number;
  readonly features: Float32Array;
}

export type RowRefusal = 'not-a-sample' | 'other-version' | 'other-width';

export function makeSampleRow(owner: string, { words, features }: VoiceSample): SampleRow {
  // A copy: of a part of a longer buffer the browser would store the whole.
  return { owner, words, version: ROW_VERSION, width: SAMPLE_WIDTH, features: features.slice() };
}

/** The inverse of `makeSampleRow`; the owner is part of the key and so known already. */
export function parseSampleRow(row: unknown): Result<VoiceSample, RowRefusal> {
  if (typeof row !== 'object' || row === null) {
    return refused('not-a-sample', 'A row of the sample store is no record. Erase this voice and read it again.');
  }
  const { words, version, width } = row as Partial<Record<keyof SampleRow, unknown>>;
  const line = typeof words === 'string' ? `The line "${words.slice(0, 40)}"` : 'A row without words';
  if (version !== ROW_VERSION) {
    return refused('other-version', `${line} was kept by another version of the kiosk. Read it again.`);
  }
  if (width !== SAMPLE_WIDTH) return refused('other-width', `${line} has features of another kind. Read it again.`);
  const sample = parseVoiceSample(row);
  return sample.ok ? sample : refused('not-a-sample', `${line} is damaged. Read it again.`);
}
