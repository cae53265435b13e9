/** A sample store in memory, which can be told to fail. */
import { ok, refused, type Refused } from '../../src/domain/result';
import type { VoiceSample } from '@stowcall/web-speech/core';
import type { SampleStoreTrouble, VoiceSampleStore } from '../../src/voice/voice-sample-store';

export interface FakeSampleStore extends VoiceSampleStore {
  readonly kept: Map<string, readonly VoiceSample[]>;
  /** Rows that cannot be used, by owner, in words. */
  readonly damaged: Map<string, readonly string[]>;
  /** Fails from now on; null for no more. */
  fail(trouble: SampleStoreTrouble | null): void;
  /** Lets nothing be found until the returned function is called. */
  holdFinds(): () => void;
}

export function fakeSampleStore(): FakeSampleStore {
  const kept = new Map<string, readonly VoiceSample[]>();
  const damaged = new Map<string, readonly string[]>();
  let trouble: SampleStoreTrouble | null = null;
  let gate: Promise<void> = Promise.resolve();
  const failure = (): Refused<SampleStoreTrouble> | null =>
    trouble === null ? null : refused(trouble, `The sample store is ${trouble}.`);
  return {
    kept,
    damaged,
    fail: (next) => {
      trouble = next;
    },
    holdFinds: () => {
      let open: () => void = () => undefined;
      gate = new Promise((done) => {
        open = done;
      });
      return open;
    },
    find: async (owner) => {
      await gate;
      return failure() ?? ok({ samples: kept.get(owner) ?? [], skipped: damaged.get(owner) ?? [] });
    },
    keep: (owner, samples) => {
      const why = failure();
      if (why === null) kept.set(owner, samples);
      return Promise.resolve(why ?? ok(undefined));
    },
    erase: (owner) => {
      const why = failure();
      if (why === null) {
        kept.delete(owner);
        damaged.delete(owner);
      }
      return Promise.resolve(why ?? ok(undefined));
    },
    eraseOthers: (owners) => {
      const why = failure();
      if (why === null) for (const owner of [...kept.keys()]) if (!owners.includes(owner)) kept.delete(owner);
      return Promise.resolve(why ?? ok(undefined));
    },
  };
}
