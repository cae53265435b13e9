/** The loft's files while the kiosk runs. Broken ones replace nothing: the last good ones go on counting. */
import { assert } from '../../domain/assert';
import type { Loft, LoftSettings } from '../../domain/loft';
import type { Result } from '../../domain/result';
import type { RefusedFile } from '../../screens/contract/start-view';
import type { LoadedLoft } from './loading';

export interface LoftWatchParts {
  readonly load: () => Promise<Result<LoadedLoft, 'no-loft'>>;
  /** Other files count from now on. */
  readonly onFiles: (loft: Loft) => void;
  /** Files, or what is wrong with them, have changed. */
  readonly onChange: () => void;
}

export class LoftWatch {
  private loaded: LoadedLoft | null = null;
  private why: string | null = null;
  private reading: Promise<void> | null = null;

  constructor(private readonly parts: LoftWatchParts) {}

  /** The first reading. Without it there is no kiosk. */
  async begin(): Promise<Result<LoadedLoft, 'no-loft'>> {
    const loaded = await this.parts.load();
    if (loaded.ok) this.loaded = loaded.value;
    return loaded;
  }

  /** The last good ones; only after a first reading that succeeded. */
  loft(): Loft {
    assert(this.loaded !== null, 'the files were read before anything is done with them');
    return this.loaded.loft;
  }

  /** Null before the first reading. */
  settings(): LoftSettings | null {
    return this.loaded?.loft.settings ?? null;
  }

  refused(): readonly RefusedFile[] {
    return this.loaded?.refusedFiles ?? [];
  }

  /** Why the files as they are now do not count; null where they do. */
  trouble(): string | null {
    return this.why;
  }

  /** Reads them anew; whoever asks during a reading waits for that one. */
  read(): Promise<void> {
    this.reading ??= this.parts
      .load()
      .then((loaded) => this.take(loaded))
      .finally(() => {
        this.reading = null;
      });
    return this.reading;
  }

  private take(loaded: Result<LoadedLoft>): void {
    const why = loaded.ok ? null : `${loaded.detail} Until that is put right, the files as they were before count.`;
    const changed = loaded.ok && loaded.value.loft !== this.loaded?.loft;
    if (loaded.ok && changed) {
      this.loaded = loaded.value;
      this.parts.onFiles(loaded.value.loft);
    }
    if (!changed && why === this.why) return;
    this.why = why;
    this.parts.onChange();
  }
}
