/** The engine behind its worker: the real engine through the worker's own code, and a worker that goes wrong. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { plainText, synthesize } from '../../../../src/speech/web-speech/synthesis/flite';
import { createFliteEngine } from '../../../../src/speech/web-speech/synthesis/flite-client';
import type { FromWorker, ToWorker, WorkerLike } from '../../../../src/speech/web-speech/worker/calls';
import { answering } from '../../../../src/speech/web-speech/worker/calls';
import type { FliteCalls } from '../../../../src/speech/web-speech/worker/flite-server';
import { fliteAnswers } from '../../../../src/speech/web-speech/worker/flite-server';
import type { FliteRequest } from '../../../../src/speech/web-speech/synthesis/flite';
import { ok } from '../../../../src/domain/result';
import { fliteModule } from '../../../audio/render-voice';

const URL_OF_ENGINE = '/engine/flite.wasm';
const ONE = { voice: 'rms', text: 'One.', stretch: 1 } as const;

/** A worker of this process that answers with `answer`, one message after another. */
function fakeWorker(answer: (message: ToWorker) => Promise<FromWorker> | null): WorkerLike & { ended: boolean } {
  return {
    onmessage: null,
    onerror: null,
    ended: false,
    postMessage(message) {
      void answer(message)?.then((data) => this.onmessage?.({ data } as MessageEvent<FromWorker>));
    },
    terminate() {
      this.ended = true;
    },
  };
}
/** The worker's own code, in this process. */
const serving = (compile: (url: string) => Promise<WebAssembly.Module>) => {
  let post: (message: FromWorker) => void = () => undefined;
  const take = answering<FliteCalls>(fliteAnswers(compile), (message) => post(message));
  return fakeWorker(
    (message) =>
      new Promise((resolve) => {
        post = resolve;
        void take(message);
      }),
  );
};
const answerTo = async ({ id, name }: ToWorker): Promise<FromWorker> => {
  const sound = { samples: new Float32Array([id ?? 0]), sampleRate: 16_000 };
  return { kind: 'answer', id: id ?? 0, answer: ok(name === 'load' ? undefined : sound) };
};
const textOf = ({ request }: ToWorker): string => (request as FliteRequest).text;

/** Hz: the middle one of the pitches of all voiced stretches, by the delay after which the sound is most like itself. */
function medianPitch(samples: Float32Array): number {
  const pitches: number[] = [];
  for (let at = 0; at + 1_000 < samples.length; at += 400) {
    const alike = (delay: number): number => {
      const [one, other] = [samples.subarray(at, at + 600), samples.subarray(at + delay, at + delay + 600)];
      const power = (of: Float32Array): number => of.reduce((sum, sample) => sum + sample * sample, 0);
      const product = one.reduce((sum, sample, index) => sum + sample * (other[index] ?? 0), 0);
      return power(one) < 0.5 ? 0 : product / Math.sqrt(power(one) * power(other));
    };
    const delays = Array.from({ length: 220 }, (_, index) => index + 50);
    const best = delays.reduce((most, delay) => (alike(delay) > alike(most) ? delay : most));
    if (alike(best) > 0.8) pitches.push(16_000 / best);
  }
  return pitches.sort((a, b) => a - b)[Math.floor(pitches.length / 2)] ?? 0;
}

describe('the real engine', () => {
  it('speaks through client and server', async () => {
    const engine = createFliteEngine(URL_OF_ENGINE, () =>
      serving((url) => {
        expect(url).toBe(URL_OF_ENGINE);
        return fliteModule();
      }),
    );
    await expect(engine.prepare()).resolves.toMatchObject({ ok: true });
    const rendered = await engine.render({ ...ONE, text: 'Hold. Call the inspector.' });
    if (!rendered.ok) throw new Error(rendered.detail);
    const seconds = rendered.value.samples.length / rendered.value.sampleRate;
    expect(seconds).toBeGreaterThan(1);
    expect(seconds).toBeLessThan(4);
  });

  it('a text of punctuation is refused, and the engine goes on', async () => {
    const engine = createFliteEngine(URL_OF_ENGINE, () => serving(fliteModule));
    await expect(engine.render({ ...ONE, text: '?!' })).resolves.toMatchObject({ reason: 'nothing-to-say' });
    await expect(engine.render(ONE)).resolves.toMatchObject({ ok: true });
  });

  it.each([110, 220])('speaks at a mean pitch of %i Hz on wish', async (pitchHz) => {
    const spoken = await synthesize(await fliteModule(), { voice: 'slt', text: 'One more line.', stretch: 1, pitchHz });
    if (!spoken.ok) throw new Error(spoken.detail);
    expect(medianPitch(spoken.value.samples)).toBeGreaterThan(0.85 * pitchHz);
    expect(medianPitch(spoken.value.samples)).toBeLessThan(1.15 * pitchHz);
  });

  it('bytes that are no engine are refused', async () => {
    const empty = await WebAssembly.compile(new Uint8Array([0, 0x61, 0x73, 0x6d, 1, 0, 0, 0]));
    await expect(synthesize(empty, ONE)).resolves.toMatchObject({ ok: false, reason: 'engine-failed' });
  });
});

describe('the server', () => {
  it('refuses to speak before it has loaded', async () => {
    const server = fliteAnswers(fliteModule);
    expect(await server.render(ONE)).toMatchObject({ ok: false, reason: 'engine-failed' });
  });

  it('a failed load is refused and tried again', async () => {
    let tries = 0;
    const server = fliteAnswers(() => {
      tries += 1;
      return tries === 1 ? Promise.reject(new Error('404')) : fliteModule();
    });
    expect(await server.load('x')).toMatchObject({ ok: false, reason: 'engine-failed' });
    expect(await server.load('x')).toEqual(ok(undefined));
    await server.load('x');
    expect(tries).toBe(2);
  });
});

describe('the client', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    expect(vi.getTimerCount()).toBe(0);
    vi.useRealTimers();
  });

  it('loads by itself, and makes sentences in the order in which they are asked for', async () => {
    const order: string[] = [];
    const engine = createFliteEngine(URL_OF_ENGINE, () =>
      fakeWorker((message) => {
        order.push(message.name === 'load' ? 'load' : textOf(message));
        return answerTo(message);
      }),
    );
    await engine.prepare();
    const works = [
      engine.render({ ...ONE, text: 'first' }),
      engine.render({ ...ONE, text: 'second' }),
      engine.render({ ...ONE, text: 'third' }),
    ];
    await Promise.all(works);
    expect(order).toEqual(['load', 'first', 'second', 'third']);
  });

  it('a worker that does not answer is ended, its work refused, and the next sentence gets a new one', async () => {
    const workers: ReturnType<typeof fakeWorker>[] = [];
    const engine = createFliteEngine(URL_OF_ENGINE, () => {
      const dead = workers.length === 0;
      const worker = fakeWorker((message) => (dead && message.name === 'render' ? null : answerTo(message)));
      workers.push(worker);
      return worker;
    });
    await engine.prepare();
    const works = [engine.render(ONE), engine.render(ONE)];
    await vi.advanceTimersByTimeAsync(20_000);
    for (const work of works) await expect(work).resolves.toMatchObject({ ok: false, reason: 'engine-failed' });
    expect(workers[0]?.ended).toBe(true);
    await expect(engine.render(ONE)).resolves.toMatchObject({ ok: true });
    expect(workers).toHaveLength(2);
  });

  it('a worker that breaks is reported with its reason', async () => {
    const worker = fakeWorker((message) => (message.name === 'render' ? null : answerTo(message)));
    const engine = createFliteEngine(URL_OF_ENGINE, () => worker);
    await engine.prepare();
    const work = engine.render(ONE);
    await vi.advanceTimersByTimeAsync(1);
    worker.onerror?.({ message: 'out of memory' } as ErrorEvent);
    await expect(work).resolves.toMatchObject({ detail: expect.stringContaining('out of memory') });
  });

  it('a browser without workers is a refusal', async () => {
    const engine = createFliteEngine(URL_OF_ENGINE, () => {
      throw new Error('no workers here');
    });
    await expect(engine.prepare()).resolves.toMatchObject({ ok: false, reason: 'engine-failed' });
  });

  it('a load that never comes back is given up', async () => {
    const engine = createFliteEngine(URL_OF_ENGINE, () => fakeWorker(() => null));
    const prepared = engine.prepare();
    await vi.advanceTimersByTimeAsync(61_000);
    await expect(prepared).resolves.toMatchObject({ ok: false });
  });
});

describe('plain text for the engine', () => {
  it.each([
    ['Say \u201caffirm\u201d \u2014 it\u2019s done', 'Say "affirm", it\'s done'],
    ['caf\u00e9', 'cafe'],
    ['1\u00bd in', '1 1/2 in'],
    ['\u00be in', '3/4 in'],
    ['42 \u00b1 1\u215b in', '42 plus or minus 1 1/8 in'],
    ['\u22122 in', '-2 in'],
    ['8 \u00d7 2', '8 by 2'],
    ['2\u20133 in', '2 to 3 in'],
    ['tab\tand\nline', 'tab and line'],
    ['\ud83e\ude82', ''],
  ])('%j becomes %j', (text, plain) => {
    expect(plainText(text)).toBe(plain);
  });
});
