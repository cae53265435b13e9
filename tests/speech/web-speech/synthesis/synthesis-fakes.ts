/** A voice engine and an output that a test moves by hand: no sound, no time. */
import { ok, refused } from '../../../../src/domain/result';
import type { FliteRequest } from '../../../../src/speech/web-speech/synthesis/flite';
import type {
  PlayEnd,
  Playing,
  SoundOutput,
  SynthesisEngine,
} from '../../../../src/speech/web-speech/synthesis/engine';

/** Lets everything that already can happen, happen. */
export async function settle(): Promise<void> {
  for (let turn = 0; turn < 50; turn += 1) await Promise.resolve();
}

export interface FakeEngine extends SynthesisEngine {
  readonly asked: { readonly request: FliteRequest }[];
  /** Texts that the engine cannot speak. */
  readonly broken: Set<string>;
  /** When set, renders wait until `release` is called. */
  held: boolean;
  loads: boolean;
  release(): void;
}

/** One second of sound for every text; a text of punctuation alone has nothing to say. */
export function fakeEngine(): FakeEngine {
  let waiting: (() => void)[] = [];
  return {
    asked: [],
    broken: new Set(),
    held: false,
    loads: true,
    release() {
      this.held = false;
      for (const go of waiting) go();
      waiting = [];
    },
    async prepare() {
      return this.loads ? ok(undefined) : refused('engine-failed', 'The voice engine could not be loaded.');
    },
    async render(request) {
      this.asked.push({ request });
      if (this.held) await new Promise<void>((resolve) => waiting.push(resolve));
      if (!/[a-z0-9]/i.test(request.text)) return refused('nothing-to-say', 'No words.');
      if (this.broken.has(request.text)) return refused('engine-failed', 'Broken.');
      return ok({ samples: new Float32Array(16_000), sampleRate: 16_000 });
    },
  };
}

export interface FakeOutput extends SoundOutput {
  time: number;
  opens: boolean;
  /** Everything ever played, newest last. */
  readonly played: { readonly volume: number; readonly speed: number; paused: boolean; end: PlayEnd | null }[];
  /** Ends the newest sound. */
  finish(end?: PlayEnd): Promise<void>;
}

export function fakeOutput(): FakeOutput {
  let endNewest: (end: PlayEnd) => void = () => undefined;
  return {
    time: 0,
    opens: true,
    played: [],
    async prepare() {
      return this.opens ? ok(undefined) : refused('not-allowed', 'Touch the screen once.');
    },
    play(_sound, how): Playing {
      const record: FakeOutput['played'][number] = { ...how, paused: false, end: null };
      this.played.push(record);
      let resolveDone: (end: PlayEnd) => void = () => undefined;
      const done = new Promise<PlayEnd>((resolve) => (resolveDone = resolve));
      const end = (how: PlayEnd) => {
        record.end ??= how;
        resolveDone(record.end);
      };
      endNewest = end;
      return {
        done,
        stop: () => end('stopped'),
        pause: () => (record.paused = true),
        resume: () => (record.paused = false),
      };
    },
    async finish(end = 'ended') {
      this.time += 1;
      endNewest(end);
      await settle();
    },
  };
}
