import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { releaseTable, takeTable, waitForTable } from '../../../src/record/store/table-lock';

/** Web Locks for one name, with other pages played by the test. Real ones are tried in `tests/e2e`. */
class FakeLocks {
  private readonly queue: (() => void)[] = [];
  private holder: { reject: (error: unknown) => void } | null = null;

  request(_name: string, options: LockOptions, work: (lock: object | null) => unknown): Promise<unknown> {
    if (this.holder === null) return this.grant(work);
    if (options.ifAvailable === true) return Promise.resolve(work(null));
    return new Promise((resolve, reject) => this.queue.push(() => this.grant(work).then(resolve, reject)));
  }

  /** Another page takes the lock by force. */
  seize(): void {
    this.holder?.reject(new DOMException('stolen', 'AbortError'));
    this.holder = { reject: () => undefined };
  }

  /** The other page goes away. */
  free(): void {
    this.holder = null;
    this.queue.shift()?.();
  }

  private grant(work: (lock: object | null) => unknown): Promise<unknown> {
    return new Promise((resolve, reject) => {
      const holder = { reject };
      this.holder = holder;
      void Promise.resolve(work({})).then((value) => {
        resolve(value);
        if (this.holder === holder) this.free();
      });
    });
  }
}

let locks: FakeLocks;
beforeEach(() => {
  locks = new FakeLocks();
  vi.stubGlobal('navigator', { locks });
});
afterEach(() => {
  releaseTable('table-1');
  vi.unstubAllGlobals();
});
const never = (): void => {
  throw new Error('the table was lost');
};

describe('a table', () => {
  it('belongs to the page that takes it first', async () => {
    expect(await takeTable('table-1', never)).toBe('mine');
    expect(await takeTable('table-1', never)).toBe('mine');
    expect(await waitForTable('table-1', never)).toBe('mine');
  });

  it('of another page is taken', async () => {
    locks.seize();
    expect(await takeTable('table-1', never)).toBe('taken');
  });

  it('is handed to the page that waits when the other goes away', async () => {
    locks.seize();
    const waiting = waitForTable('table-1', never);
    const told = vi.fn();
    void waiting.then(told);
    await Promise.resolve();
    expect(told).not.toHaveBeenCalled();
    locks.free();
    expect(await waiting).toBe('mine');
  });

  it('that is seized by another page is lost, and this page is told once', async () => {
    const lost = vi.fn();
    expect(await takeTable('table-1', lost)).toBe('mine');
    locks.seize();
    await vi.waitFor(() => expect(lost).toHaveBeenCalledTimes(1));
    expect(await takeTable('table-1', never)).toBe('taken');
  });

  it('that is let go can be taken again', async () => {
    expect(await takeTable('table-1', never)).toBe('mine');
    releaseTable('table-1');
    expect(await waitForTable('table-1', never)).toBe('mine');
  });

  it('where the browser has no locks says so', async () => {
    vi.stubGlobal('navigator', {});
    expect(await takeTable('table-1', never)).toBe('unsupported');
    expect(await waitForTable('table-1', never)).toBe('unsupported');
  });

  it('that the browser refuses to lock is an error, not a hold', async () => {
    vi.stubGlobal('navigator', {
      locks: { request: () => Promise.reject(new DOMException('no', 'SecurityError')) },
    });
    await expect(takeTable('table-1', never)).rejects.toThrow();
  });
});
