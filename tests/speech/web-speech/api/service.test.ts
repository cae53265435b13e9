/** The page's half of the recogniser over a worker and a microphone that the test moves. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Result } from '../../../../src/domain/result';
import { ok, refused } from '../../../../src/domain/result';
import type { MicrophoneOptions } from '../../../../src/speech/web-speech/microphone/microphone';
import type { EngineTrouble } from '../../../../src/speech/web-speech/engine/engine';
import type { FromWorker, ToWorker, WorkerLike } from '../../../../src/speech/web-speech/worker/calls';
import type { RecogniserEvent } from '../../../../src/speech/web-speech/worker/recogniser-server';
import type { SessionEvent } from '../../../../src/speech/web-speech/api/service';
import { createRecognitionService } from '../../../../src/speech/web-speech/api/service';
import { settle } from './fake-service';

const AUTOMATON = {
  ways: [new Map([['a', 1]]), new Map<string, number>()],
  accepting: [false, true],
  costs: new Map(),
};
const A = { wanted: AUTOMATON, all: AUTOMATON, lowRisk: null, rivals: null, isSampled: false };

class FakeWorker implements WorkerLike {
  readonly orders: { readonly name: string; readonly request: unknown }[] = [];
  terminated = false;
  onmessage: ((event: MessageEvent<FromWorker>) => void) | null = null;
  onerror: ((event: ErrorEvent) => void) | null = null;
  #load = 0;
  constructor(private readonly loads: boolean) {}

  postMessage({ id, name, request }: ToWorker): void {
    this.orders.push({ name, request });
    if (name !== 'load' || id === null) return;
    this.#load = id;
    if (this.loads) this.loaded(ok(undefined));
  }

  /** The engine is loaded, or is not. */
  loaded(answer: Result<void, EngineTrouble>): void {
    this.#report({ kind: 'answer', id: this.#load, answer });
  }

  tell(event: RecogniserEvent): void {
    this.#report({ kind: 'event', event });
  }

  #report(data: FromWorker): void {
    this.onmessage?.({ data } as MessageEvent<FromWorker>);
  }

  terminate(): void {
    this.terminated = true;
  }
}

function rig({ loads = true } = {}) {
  const workers: FakeWorker[] = [];
  const microphones: (MicrophoneOptions & { closed: boolean })[] = [];
  const state = { position: 16_000, now: 5000, microphone: true };
  const service = createRecognitionService({
    wasm: 'w',
    model: 'm',
    pronunciations: [],
    makeWorker: () => {
      const worker = new FakeWorker(loads);
      workers.push(worker);
      return worker;
    },
    openMicrophone: (options) => {
      if (!state.microphone) return Promise.resolve(refused('absent', 'none'));
      const microphone = { ...options, closed: false };
      microphones.push(microphone);
      return Promise.resolve(ok({ position: () => state.position, close: () => (microphone.closed = true) }));
    },
    now: () => state.now,
  });
  const events: SessionEvent[] = [];
  const troubles: string[] = [];
  service.onTrouble((trouble) => troubles.push(trouble));
  const orders = () => workers.flatMap((worker) => worker.orders.map(({ name }) => name));
  return { service, workers, microphones, state, events, troubles, orders };
}

const FINAL: Extract<SessionEvent, { kind: 'final' }> = {
  kind: 'final',
  verdict: { kind: 'heard', words: 'stand by' },
  end: 8000,
};

afterEach(() => vi.useRealTimers());

describe('preparing', () => {
  it('loads once and opens one microphone, however often it is asked', async () => {
    const { service, workers, microphones, orders } = rig();
    const [first, second] = await Promise.all([service.prepare(), service.prepare()]);
    expect([first.ok, second.ok, (await service.prepare()).ok]).toEqual([true, true, true]);
    expect([workers.length, microphones.length]).toEqual([1, 1]);
    expect(orders()).toEqual(['load', 'sound']);
  });

  it('without a microphone is refused, and works once there is one', async () => {
    const { service, state, workers } = rig();
    state.microphone = false;
    expect(await service.prepare()).toMatchObject({ ok: false, reason: 'absent' });
    state.microphone = true;
    expect((await service.prepare()).ok).toBe(true);
    expect(workers).toHaveLength(1);
  });

  it('with an engine that does not load is refused, and tries a new worker the next time', async () => {
    const { service, workers } = rig({ loads: false });
    const first = service.prepare();
    await settle();
    workers[0]?.loaded(refused('model', 'no model'));
    expect(await first).toMatchObject({ ok: false, reason: 'model' });
    expect(workers[0]?.terminated).toBe(true);
    const second = service.prepare();
    await settle();
    workers[1]?.loaded(ok(undefined));
    expect((await second).ok).toBe(true);
  });

  it('gives a worker that never answers up', async () => {
    vi.useFakeTimers();
    const { service } = rig({ loads: false });
    const prepared = service.prepare();
    await vi.advanceTimersByTimeAsync(60_000);
    expect(await prepared).toMatchObject({ ok: false, reason: 'engine' });
  });

  it('a sound system that fails is the engine’s trouble', async () => {
    const service = createRecognitionService({
      wasm: 'w',
      model: 'm',
      pronunciations: [],
      makeWorker: () => new FakeWorker(true),
      openMicrophone: () => Promise.reject(new Error('no worklet')),
      now: () => 0,
    });
    const prepared = await service.prepare();
    expect(prepared).toMatchObject({ ok: false, reason: 'engine' });
    expect(prepared.ok ? '' : prepared.detail).toContain('no worklet');
  });

  it('another track closes the microphone that was open', async () => {
    const { service, microphones } = rig();
    await service.prepare();
    await service.prepare({ kind: 'audio' } as MediaStreamTrack);
    expect(microphones.map(({ closed }) => closed)).toEqual([true, false]);
  });
});

describe('a session', () => {
  async function open() {
    const made = rig();
    await made.service.prepare();
    const session = made.service.open(A, 150, (event) => made.events.push(event));
    return { ...made, session, worker: made.workers[0] as FakeWorker };
  }

  it('hears nothing that sounded before its guard is over', async () => {
    const { worker } = await open();
    expect(worker.orders.at(-1)).toEqual({ name: 'open', request: { session: 1, listened: A, from: 16_000 + 2400 } });
  });

  it('tells what the worker finds', async () => {
    const { worker, events } = await open();
    worker.tell({ session: 1, event: FINAL });
    worker.tell({ session: 1, event: { kind: 'finished' } });
    expect(events).toEqual([FINAL, { kind: 'finished' }]);
  });

  it('tells nothing once it is closed, even if it was found before', async () => {
    const { worker, events, session } = await open();
    session.close();
    worker.tell({ session: 1, event: FINAL });
    expect(events).toEqual([]);
    expect(worker.orders.at(-1)).toEqual({ name: 'close', request: 1 });
  });

  it('that is closed late does not close the one that followed it', async () => {
    const { worker, service, session, events } = await open();
    service.open(A, 0, (event) => events.push(event));
    session.close();
    session.finish();
    worker.tell({ session: 1, event: FINAL });
    expect(events).toEqual([]);
    worker.tell({ session: 2, event: FINAL });
    expect(events).toEqual([FINAL]);
    expect(worker.orders.map(({ name }) => name)).toEqual(['load', 'sound', 'open', 'open']);
  });

  it('is told of a grammar that the engine does not take', async () => {
    const { worker, events } = await open();
    worker.tell({ session: 1, event: { kind: 'refused', reason: 'unknown-word', detail: 'no word' } });
    expect(events).toEqual([{ kind: 'refused', reason: 'unknown-word', detail: 'no word' }]);
  });

  it('ends when the microphone is unplugged, and prepare opens it again', async () => {
    const { service, microphones, events, troubles } = await open();
    microphones[0]?.onTrouble('unplugged', 'gone');
    expect(events).toEqual([{ kind: 'lost', trouble: 'unplugged', detail: 'gone' }]);
    expect(troubles).toEqual(['unplugged']);
    await service.prepare();
    expect(microphones).toHaveLength(2);
  });

  it('ends when the worker dies, and prepare starts engine and microphone anew', async () => {
    const { service, workers, microphones, worker, events, troubles } = await open();
    worker.onerror?.({ message: 'out of memory' } as ErrorEvent);
    expect(events).toEqual([{ kind: 'lost', trouble: 'engine', detail: expect.stringContaining('out of memory') }]);
    expect(troubles).toEqual(['engine']);
    expect(microphones[0]?.closed).toBe(true);
    expect((await service.prepare()).ok).toBe(true);
    expect([workers.length, microphones.length]).toEqual([2, 2]);
  });
});

it('positions of the stream become moments of the page', async () => {
  const { service } = rig();
  await service.prepare();
  expect(service.timeOf(8000)).toBe(4500);
});

it('levels go to everyone who asked, until they no longer do', async () => {
  const { service, microphones } = rig();
  const levels: number[] = [];
  const forget = service.onLevel((level) => levels.push(level));
  await service.prepare();
  microphones[0]?.onLevel(0.5);
  forget();
  microphones[0]?.onLevel(0.7);
  expect(levels).toEqual([0.5]);
});

describe('whose voice is heard', () => {
  const samples = [{ words: 'stand by', features: Float32Array.of(1) }];

  it('is told to the worker, and to the one that takes its place', async () => {
    const { service, workers } = rig();
    await service.prepare();
    service.know(samples);
    expect(workers[0]?.orders.at(-1)).toEqual({ name: 'know', request: samples });
    workers[0]?.onerror?.({ message: 'gone' } as ErrorEvent);
    await service.prepare();
    expect(workers[1]?.orders.slice(0, 2)).toMatchObject([{ name: 'load' }, { name: 'know', request: samples }]);
  });

  it('is kept until there is a worker', async () => {
    const { service, workers } = rig();
    service.know(samples);
    await service.prepare();
    expect(workers[0]?.orders.slice(0, 2)).toMatchObject([{ name: 'load' }, { name: 'know', request: samples }]);
  });
});
