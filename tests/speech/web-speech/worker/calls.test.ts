/** Calls to a worker: answered in order, each within its time; a worker that is lost is noticed. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { FromWorker, ToWorker, WorkerLike } from '../../../../src/speech/web-speech/worker/calls';
import { answering, Moved, WorkerLine } from '../../../../src/speech/web-speech/worker/calls';

type SumCalls = {
  readonly double: (value: number) => number;
  readonly fail: (why: string) => void;
  readonly never: () => void;
  readonly note: (text: string) => void;
  readonly bytes: (length: number) => Uint8Array<ArrayBuffer>;
};

class LocalWorker implements WorkerLike {
  onmessage: ((event: MessageEvent<FromWorker>) => void) | null = null;
  onerror: ((event: ErrorEvent) => void) | null = null;
  ended = false;
  readonly notes: string[] = [];
  readonly moved: Transferable[] = [];
  readonly #take: (message: ToWorker) => Promise<void>;

  constructor() {
    this.#take = answering<SumCalls>(
      {
        double: async (value) => value * 2,
        fail: (why) => {
          throw new Error(why);
        },
        never: () => new Promise<void>(() => undefined),
        note: (text) => void this.notes.push(text),
        bytes: (length) => {
          const bytes = new Uint8Array(length);
          return new Moved(bytes, [bytes.buffer]);
        },
      },
      (data, transfer) => {
        this.moved.push(...transfer);
        this.onmessage?.({ data } as MessageEvent<FromWorker>);
      },
    );
  }

  postMessage(message: ToWorker): void {
    void this.#take(message);
  }

  tell(event: unknown): void {
    this.onmessage?.({ data: { kind: 'event', event } } as MessageEvent<FromWorker>);
  }

  terminate(): void {
    this.ended = true;
  }
}

function rig() {
  const workers: LocalWorker[] = [];
  const told: unknown[] = [];
  const line = new WorkerLine<SumCalls, string>({
    makeWorker: () => {
      const worker = new LocalWorker();
      workers.push(worker);
      return worker;
    },
    onEvent: (event) => told.push(event),
    onLost: (trouble, detail) => told.push([trouble, detail]),
  });
  return { line, workers, told };
}

const LIMIT = { limitMs: 1_000 };

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  expect(vi.getTimerCount()).toBe(0);
  vi.useRealTimers();
});

describe('a call', () => {
  it('is answered, one after another, by the one worker that the first call makes', async () => {
    const { line, workers } = rig();
    expect([line.isOpen, workers.length]).toEqual([false, 0]);
    const both = [line.call('double', 2, LIMIT), line.call('double', 5, LIMIT)];
    expect([line.isOpen, line.isBusy]).toEqual([true, true]);
    expect(await Promise.all(both)).toEqual([
      { ok: true, value: 4 },
      { ok: true, value: 10 },
    ]);
    expect([line.isBusy, workers.length]).toEqual([false, 1]);
  });

  it('of which the worker throws something is refused, and the worker goes on', async () => {
    const { line, workers, told } = rig();
    expect(await line.call('fail', 'no such file', LIMIT)).toEqual({
      ok: false,
      reason: 'failed',
      detail: 'no such file',
    });
    expect(await line.call('double', 1, LIMIT)).toEqual({ ok: true, value: 2 });
    expect([workers.length, told]).toEqual([1, []]);
  });

  it('may move what it answers with', async () => {
    const { line, workers } = rig();
    const bytes = await line.call('bytes', 3, LIMIT);
    expect(bytes.ok && bytes.value.length).toBe(3);
    expect(workers[0]?.moved).toEqual([bytes.ok && bytes.value.buffer]);
  });
});

describe('a worker', () => {
  it('that does not answer is ended with all that waits for it, told once, and replaced', async () => {
    const { line, workers, told } = rig();
    const works = [line.call('never', undefined as never, LIMIT), line.call('double', 2, LIMIT)];
    await vi.advanceTimersByTimeAsync(1_000);
    for (const work of works) expect(await work).toMatchObject({ ok: false, reason: 'late' });
    expect(told).toEqual([['late', 'it does not answer']]);
    expect([workers[0]?.ended, line.isOpen]).toEqual([true, false]);
    expect(await line.call('double', 2, LIMIT)).toEqual({ ok: true, value: 4 });
    expect(workers).toHaveLength(2);
  });

  it('that breaks is noticed, also while nothing is asked of it', async () => {
    const { line, workers, told } = rig();
    await line.call('double', 2, LIMIT);
    workers[0]?.onerror?.({ message: 'out of memory' } as ErrorEvent);
    expect(told).toEqual([['broken', 'out of memory']]);
    expect(line.isOpen).toBe(false);
  });

  it('that was lost is heard no more', async () => {
    const { line, workers, told } = rig();
    await line.call('double', 2, LIMIT);
    line.close();
    workers[0]?.tell('late news');
    workers[0]?.onerror?.({ message: 'and gone' } as ErrorEvent);
    expect(told).toEqual([]);
  });

  it('that cannot be made is a refusal', async () => {
    const line = new WorkerLine<SumCalls>({
      makeWorker: () => {
        throw new Error('no workers here');
      },
    });
    expect(await line.call('double', 2, LIMIT)).toMatchObject({ reason: 'broken', detail: 'Error: no workers here' });
  });

  it('is closed with what waits for it, and that is no loss', async () => {
    const { line, workers, told } = rig();
    const work = line.call('never', undefined as never, LIMIT);
    line.close();
    expect(await work).toMatchObject({ ok: false, reason: 'closed' });
    expect([workers[0]?.ended, told]).toEqual([true, []]);
  });
});

describe('orders and events', () => {
  it('go to a worker that is there, past what is being asked, and have no answer', async () => {
    const { line, workers } = rig();
    line.order('note', 'nobody is there');
    const asked = line.call('double', 2, LIMIT);
    line.order('note', 'one');
    expect(workers[0]?.notes).toEqual(['one']);
    expect(await asked).toEqual({ ok: true, value: 4 });
  });

  it('of the worker are told as they come', async () => {
    const { line, workers, told } = rig();
    await line.call('double', 2, LIMIT);
    workers[0]?.tell('heard');
    expect(told).toEqual(['heard']);
  });
});
