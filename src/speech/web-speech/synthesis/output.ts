/** Plays sounds through Web Audio and knows when the last sample has been heard. */
import { ok, refused } from '@stowcall/grammar';
import type { Result } from '@stowcall/grammar';
import type { Sound } from './flite-wav';
import type { PlayEnd, Playing, SoundOutput } from './engine';

/** A context that may not start yet leaves `resume()` pending for ever, so it is given this long. */
const OPENING_MS = 1500;
/** How much later than computed the end may come before the output counts as stuck. */
const MARGIN_MS = 1500;
/** Reported latencies above this are taken for nonsense. */
const LATENCY_LIMIT_S = 2.5;

/** `makeContext` is called on first use and again when the context has been closed. */
export function createSoundOutput(makeContext: () => AudioContext): SoundOutput {
  let context: AudioContext | null = null;
  const opened = async (): Promise<Result<AudioContext, 'not-allowed' | 'audio-hardware'>> => {
    try {
      if (context === null || context.state === 'closed') context = makeContext();
      if (context.state !== 'running') await within(context.resume(), OPENING_MS);
    } catch (error) {
      return refused('audio-hardware', `No sound can be played (${String(error)}). Read the screen instead.`);
    }
    if (context.state === 'running') return ok(context);
    return refused('not-allowed', 'The browser holds the voice back: touch the screen once.');
  };
  return {
    get time() {
      return context?.currentTime ?? 0;
    },
    prepare: async () => {
      const result = await opened();
      return result.ok ? ok(undefined) : result;
    },
    play: (sound, how) => {
      const playing = new BufferPlaying(sound, how);
      void opened().then((result) => {
        if (result.ok) playing.begin(result.value);
        else playing.settle(result.reason === 'not-allowed' ? 'blocked' : 'stuck');
      });
      return playing;
    },
  };
}

class BufferPlaying implements Playing {
  readonly done: Promise<PlayEnd>;
  #settle: (end: PlayEnd) => void = () => undefined;
  #settled = false;
  #paused = false;
  #context: AudioContext | null = null;
  #source: AudioBufferSourceNode | null = null;
  #watchdog: ReturnType<typeof setTimeout> | undefined;
  /** Seconds of the sound that were played before the present source began, and when that was. */
  #offset = 0;
  #beganAt = 0;
  readonly #sound: Sound;
  readonly #how: { readonly volume: number; readonly speed: number };

  constructor(sound: Sound, how: { readonly volume: number; readonly speed: number }) {
    this.#sound = sound;
    this.#how = how;
    this.done = new Promise((resolve) => (this.#settle = resolve));
  }

  begin(context: AudioContext): void {
    this.#context = context;
    if (!this.#settled && !this.#paused) this.#start(context);
  }

  settle(end: PlayEnd): void {
    if (this.#settled) return;
    this.#settled = true;
    this.#dropSource();
    this.#settle(end);
  }

  stop(): void {
    this.settle('stopped');
  }

  pause(): void {
    if (this.#paused || this.#settled) return;
    this.#paused = true;
    if (this.#context === null || this.#source === null) return;
    this.#offset += (this.#context.currentTime - this.#beganAt) * this.#how.speed;
    this.#dropSource();
  }

  resume(): void {
    if (!this.#paused || this.#settled) return;
    this.#paused = false;
    if (this.#context !== null) this.#start(this.#context);
  }

  #start(context: AudioContext): void {
    const { samples, sampleRate } = this.#sound;
    const left = samples.length / sampleRate - this.#offset;
    if (left <= 0) return this.settle('ended');
    try {
      const buffer = context.createBuffer(1, samples.length, sampleRate);
      buffer.copyToChannel(samples, 0);
      const gain = context.createGain();
      gain.gain.value = this.#how.volume;
      const source = context.createBufferSource();
      source.buffer = buffer;
      source.playbackRate.value = this.#how.speed;
      source.connect(gain).connect(context.destination);
      source.onended = () => this.#heardOut(context, source);
      this.#source = source;
      this.#beganAt = context.currentTime;
      source.start(0, this.#offset);
    } catch {
      return this.settle('stuck');
    }
    this.#watchdog = setTimeout(() => this.settle('stuck'), (left / this.#how.speed) * 1000 + MARGIN_MS);
  }

  /** The source is done when its samples have been handed on; the loudspeaker is a little behind. */
  #heardOut(context: AudioContext, source: AudioBufferSourceNode): void {
    if (source !== this.#source) return;
    clearTimeout(this.#watchdog);
    const latency = (context.outputLatency || 0) + (context.baseLatency || 0);
    const seconds = Math.min(Math.max(latency, 0), LATENCY_LIMIT_S);
    this.#watchdog = setTimeout(() => this.settle('ended'), seconds * 1000);
  }

  #dropSource(): void {
    clearTimeout(this.#watchdog);
    if (this.#source === null) return;
    const source = this.#source;
    this.#source = null;
    source.onended = null;
    try {
      source.stop();
    } catch {
      // It never began: there is nothing to stop.
    }
    source.disconnect();
  }
}

async function within(work: Promise<unknown>, ms: number): Promise<void> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<void>((resolve) => (timer = setTimeout(resolve, ms)));
  await Promise.race([work, late]);
  clearTimeout(timer);
}
