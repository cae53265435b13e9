/** What was searched once, kept in a file by the name of its sound; of another state of the ear nothing is kept. */
import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { z } from 'zod';

export interface KeptSearchesOptions<T> {
  /** What is kept of one sound. */
  readonly row: z.ZodType<T>;
  readonly file: string;
  /** Tells one state of engine and grammar from another. */
  readonly of: string;
}

export class KeptSearches<T> {
  readonly sounds: Record<string, T>;
  readonly #options: KeptSearchesOptions<T>;

  /** Throws where the file is none of ours. */
  constructor(options: KeptSearchesOptions<T>) {
    this.#options = options;
    const schema = z.object({ of: z.string(), sounds: z.record(z.string(), options.row) });
    const kept = existsSync(options.file)
      ? schema.parse(JSON.parse(readFileSync(options.file, 'utf8')))
      : { of: '', sounds: {} };
    this.sounds = kept.of === options.of ? kept.sounds : {};
  }

  /** Whole or not at all: a run that is cut off must not leave half a file. */
  save(): void {
    const { file, of } = this.#options;
    writeFileSync(`${file}.new`, JSON.stringify({ of, sounds: this.sounds }));
    renameSync(`${file}.new`, file);
  }
}
