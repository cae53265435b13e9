/** Playing through Web Audio on a fake clock: the end is known when it comes, and when it does not come. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createSoundOutput } from '../../../../src/speech/web-speech/synthesis/output';

const SECOND = { samples: new Float32Array(16_000), sampleRate: 16_000 };
const PLAIN = { volume: 1, speed: 1 };

/** As much of an AudioContext as is used; sources end by the fake clock. */
class FakeContext {
  state: AudioContextState = 'suspended';
  destination = {};
  baseLatency = 0;
  outputLatency = 0;
  allowed = true;
  silent = false;
  starts: number[] = [];
  gains: number[] = [];
  #born = Date.now();
  get currentTime() {
    return (Date.now() - this.#born) / 1000;
  }
  resume() {
    if (!this.allowed) return new Promise<void>(() => undefined);
    this.state = 'running';
    return Promise.resolve();
  }
  createBuffer(_channels: number, length: number, sampleRate: number) {
    return { duration: length / sampleRate, copyToChannel: () => undefined };
  }
  createGain() {
    const gains = this.gains;
    return {
      gain: {
        set value(value: number) {
          gains.push(value);
        },
      },
      connect: () => undefined,
    };
  }
  createBufferSource() {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const source = {
      buffer: { duration: 0 },
      playbackRate: { value: 1 },
      onended: null as (() => void) | null,
      connect: (node: unknown) => node,
      disconnect: () => undefined,
      start: (_when: number, offset: number) => {
        this.starts.push(offset);
        const seconds = (source.buffer.duration - offset) / source.playbackRate.value;
        if (!this.silent) timer = setTimeout(() => source.onended?.(), seconds * 1000);
      },
      stop: () => {
        clearTimeout(timer);
        source.onended?.();
      },
    };
    return source;
  }
}

let context: FakeContext;
let made: number;
const output = () =>
  createSoundOutput(() => {
    made += 1;
    return context as unknown as AudioContext;
  });
/** Starts one sound and returns how it ended, as it stands. */
function watch(playing: { readonly done: Promise<string> }) {
  const seen = { end: 'playing' };
  void playing.done.then((end) => (seen.end = end));
  return seen;
}

beforeEach(() => {
  vi.useFakeTimers();
  context = new FakeContext();
  made = 0;
});
afterEach(() => {
  expect(vi.getTimerCount()).toBe(0);
  vi.useRealTimers();
});

describe('sound output', () => {
  it('ends when the last sample has been played', async () => {
    const seen = watch(output().play(SECOND, { volume: 0.5, speed: 1 }));
    await vi.advanceTimersByTimeAsync(999);
    expect(seen.end).toBe('playing');
    await vi.advanceTimersByTimeAsync(2);
    expect(seen.end).toBe('ended');
    expect(context.gains).toEqual([0.5]);
  });

  it('waits for what the loudspeaker still owes', async () => {
    context.outputLatency = 0.15;
    context.baseLatency = 0.05;
    const seen = watch(output().play(SECOND, PLAIN));
    await vi.advanceTimersByTimeAsync(1150);
    expect(seen.end).toBe('playing');
    await vi.advanceTimersByTimeAsync(60);
    expect(seen.end).toBe('ended');
  });

  it('an end that never comes is found out', async () => {
    context.silent = true;
    const seen = watch(output().play(SECOND, { volume: 1, speed: 2 }));
    await vi.advanceTimersByTimeAsync(1900);
    expect(seen.end).toBe('playing');
    await vi.advanceTimersByTimeAsync(200);
    expect(seen.end).toBe('stuck');
  });

  it('stop ends it at once, and only once', async () => {
    const playing = output().play(SECOND, PLAIN);
    const seen = watch(playing);
    await vi.advanceTimersByTimeAsync(300);
    playing.stop();
    playing.stop();
    await vi.advanceTimersByTimeAsync(5000);
    expect(seen.end).toBe('stopped');
  });

  it('stop before the output has opened keeps the sound from ever starting', async () => {
    const playing = output().play(SECOND, PLAIN);
    playing.stop();
    await vi.advanceTimersByTimeAsync(100);
    expect(context.starts).toEqual([]);
    await expect(playing.done).resolves.toBe('stopped');
  });

  it('goes on after a pause where it left off, for as long as is left', async () => {
    const playing = output().play(SECOND, PLAIN);
    const seen = watch(playing);
    await vi.advanceTimersByTimeAsync(400);
    playing.pause();
    await vi.advanceTimersByTimeAsync(60_000);
    expect(seen.end).toBe('playing');
    playing.resume();
    expect(context.starts[1]).toBeCloseTo(0.4, 5);
    await vi.advanceTimersByTimeAsync(590);
    expect(seen.end).toBe('playing');
    await vi.advanceTimersByTimeAsync(20);
    expect(seen.end).toBe('ended');
  });

  it('a pause before the beginning holds it', async () => {
    const playing = output().play(SECOND, PLAIN);
    playing.pause();
    await vi.advanceTimersByTimeAsync(1000);
    expect(context.starts).toEqual([]);
    playing.resume();
    expect(context.starts).toEqual([0]);
    playing.stop();
  });

  it('a browser that waits for a touch blocks, says so, and lets it through afterwards', async () => {
    context.allowed = false;
    const voice = output();
    const seen = watch(voice.play(SECOND, PLAIN));
    const prepared = voice.prepare();
    await vi.advanceTimersByTimeAsync(2000);
    expect(seen.end).toBe('blocked');
    await expect(prepared).resolves.toMatchObject({ ok: false, reason: 'not-allowed' });
    context.allowed = true;
    await expect(voice.prepare()).resolves.toMatchObject({ ok: true });
  });

  it('a machine without sound is a refusal and not an exception', async () => {
    const voice = createSoundOutput(() => {
      throw new Error('no device');
    });
    await expect(voice.prepare()).resolves.toMatchObject({ ok: false, reason: 'audio-hardware' });
    await expect(voice.play(SECOND, PLAIN).done).resolves.toBe('stuck');
  });

  it('a closed context is replaced, an open one is kept', async () => {
    const voice = output();
    await voice.prepare();
    await voice.prepare();
    expect(made).toBe(1);
    context.state = 'closed';
    context.allowed = true;
    await voice.prepare();
    expect(made).toBe(2);
  });
});
