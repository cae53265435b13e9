/** The sample store in IndexedDB. Whatever is wrong with it is a refusal: the kiosk packs on without anybody's voice. */
import { assert } from '../../domain/assert';
import { ok, refused, type Refused, type Result } from '../../domain/result';
import type { VoiceSample } from '@stowcall/web-speech/core';
import { parseVoiceSample } from '@stowcall/web-speech/core';
import {
  PEOPLE_MAX,
  SAMPLES_MAX,
  type KeptVoice,
  type SampleStoreTrouble,
  type VoiceSampleStore,
} from '../voice-sample-store';
import { makeSampleRow, parseSampleRow } from './sample-row';
import { hasSampleDb, openSampleDb, rowsOf, SampleStoreError, type SampleDb } from './sample-db';

export interface SampleStoreOptions {
  /** Name of the database. */
  readonly name: string;
  /** Milliseconds after which a database that does not answer counts as unavailable. */
  readonly limitMs?: number;
}

const LIMIT_MS = 5_000;

/** A SHA-256 in hex: nothing that could be read as a name or a badge is ever a key. */
const OWNER = /^[0-9a-f]{64}$/;

const TROUBLE_OF = new Map<string, SampleStoreTrouble>(
  Object.entries({
    QuotaExceededError: 'full',
    VersionError: 'newer',
    SecurityError: 'denied',
    NotAllowedError: 'denied',
  }),
);

const SENTENCES: Readonly<Record<SampleStoreTrouble, string>> = {
  denied: 'This browser gives no storage to this page, so no voice can be kept. Packing goes on without.',
  full: 'The storage is full, so the voice was not kept. Free some room on this computer, then read again.',
  crowded: `This kiosk keeps ${String(PEOPLE_MAX)} voices and no more. Somebody must erase theirs first.`,
  newer: 'A newer version of the kiosk keeps the voices. Reload this page.',
  unavailable: 'The storage for voices does not answer. Packing goes on without. Start the kiosk again.',
};

/** Makes the sample store; nothing is touched before its first use. */
export function createVoiceSampleStore(options: SampleStoreOptions): VoiceSampleStore {
  return new IndexedSampleStore(options);
}

class IndexedSampleStore implements VoiceSampleStore {
  private db: Promise<SampleDb> | null = null;

  constructor(private readonly options: SampleStoreOptions) {}

  find(owner: string): Promise<Result<KeptVoice, SampleStoreTrouble>> {
    return this.ifThere({ samples: [], skipped: [] }, async (db) => {
      const samples: VoiceSample[] = [];
      const skipped: string[] = [];
      for (const row of await db.getAll('samples', rowsOf(checked(owner)), SAMPLES_MAX)) {
        const sample = parseSampleRow(row);
        if (sample.ok) samples.push(sample.value);
        else skipped.push(sample.detail);
      }
      return { samples, skipped };
    });
  }

  async keep(owner: string, samples: readonly VoiceSample[]): Promise<Result<void, SampleStoreTrouble>> {
    assert(samples.length > 0 && samples.length <= SAMPLES_MAX, 'a voice has some samples, and not too many');
    assert(
      samples.every((sample) => parseVoiceSample(sample).ok),
      'only whole samples are kept',
    );
    try {
      const tx = (await this.open()).transaction('samples', 'readwrite', { durability: 'strict' });
      const owners = new Set((await tx.store.getAllKeys()).map(([one]) => one));
      owners.delete(checked(owner));
      if (owners.size >= PEOPLE_MAX) {
        await tx.done;
        return refused('crowded', SENTENCES.crowded);
      }
      // Told at the end; an earlier failure of a request is told first, and must not leave this one unheard.
      tx.done.catch(() => undefined);
      await tx.store.delete(rowsOf(owner));
      for (const sample of samples) await tx.store.put(makeSampleRow(owner, sample));
      await tx.done;
      return ok(undefined);
    } catch (error) {
      return this.failed(error);
    }
  }

  erase(owner: string): Promise<Result<void, SampleStoreTrouble>> {
    return this.ifThere(undefined, async (db) => {
      const tx = db.transaction('samples', 'readwrite', { durability: 'strict' });
      await Promise.all([tx.store.delete(rowsOf(checked(owner))), tx.done]);
    });
  }

  eraseOthers(owners: readonly string[]): Promise<Result<void, SampleStoreTrouble>> {
    return this.ifThere(undefined, async (db) => {
      const tx = db.transaction('samples', 'readwrite', { durability: 'strict' });
      const strangers = (await tx.store.getAllKeys()).filter(([owner]) => !owners.includes(owner));
      await Promise.all([...strangers.map((key) => tx.store.delete(key)), tx.done]);
    });
  }

  /** What `work` makes of the database; `empty` where no voice has ever been kept. */
  private async ifThere<T>(empty: T, work: (db: SampleDb) => Promise<T>): Promise<Result<T, SampleStoreTrouble>> {
    try {
      if (this.db === null && !(await hasSampleDb(this.options.name))) return ok(empty);
      return ok(await work(await this.open()));
    } catch (error) {
      return this.failed(error);
    }
  }

  private open(): Promise<SampleDb> {
    const { name, limitMs = LIMIT_MS } = this.options;
    const gone = (): void => {
      this.db = null;
    };
    this.db ??= openSampleDb(name, limitMs, gone);
    return this.db;
  }

  /** What the browser throws, as a refusal; a defect of ours goes on up. */
  private failed(error: unknown): Refused<SampleStoreTrouble> {
    this.db = null;
    const trouble = troubleOf(error);
    if (trouble === null) throw error;
    return refused(trouble, SENTENCES[trouble]);
  }
}

function troubleOf(error: unknown): SampleStoreTrouble | null {
  if (error instanceof SampleStoreError) return error.trouble;
  return error instanceof DOMException ? (TROUBLE_OF.get(error.name) ?? 'unavailable') : null;
}

function checked(owner: string): string {
  assert(OWNER.test(owner), 'the owner of a voice is named by a digest');
  return owner;
}
