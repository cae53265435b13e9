/** A new version is taken up between packs, and only then. */
import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { watchVersions, type NewVersion } from '../../src/kiosk/new-version';
import { startRig } from './rig';

interface FakeWorker extends EventTarget {
  state: string;
  readonly asked: unknown[];
  postMessage(message: unknown): void;
}

function fakeWorker(): FakeWorker {
  const asked: unknown[] = [];
  return Object.assign(new EventTarget(), { state: 'installing', asked, postMessage: (it: unknown) => asked.push(it) });
}

interface FakeRegistration extends EventTarget {
  waiting: FakeWorker | null;
  installing: FakeWorker | null;
  update: () => Promise<void>;
}

function fakeWorkers(controller: object | null) {
  const registration: FakeRegistration = Object.assign(new EventTarget(), {
    waiting: null,
    installing: null,
    update: vi.fn(() => Promise.reject(new Error('no server'))),
  });
  const container = Object.assign(new EventTarget(), { controller, ready: Promise.resolve(registration) });
  return { registration, container: container as unknown as ServiceWorkerContainer };
}

const turn = (): Promise<void> => new Promise((done) => setTimeout(done, 0));

describe('the watch over versions', () => {
  it('tells of one that begins to wait, asks it to take over and loads the page anew', async () => {
    const { registration, container } = fakeWorkers({});
    const reload = vi.fn();
    const versions = watchVersions({ workers: container, reload, limitMs: 5 });
    const told = vi.fn();
    versions.onWaiting(told);
    await turn();
    expect(versions.isWaiting()).toBe(false);
    const worker = fakeWorker();
    registration.installing = worker;
    registration.dispatchEvent(new Event('updatefound'));
    [registration.installing, registration.waiting] = [null, worker];
    worker.dispatchEvent(new Event('statechange'));
    expect(told).toHaveBeenCalledTimes(1);
    expect(worker.asked).toEqual([]);
    const taking = versions.takeUp();
    expect(worker.asked).toEqual([{ type: 'SKIP_WAITING' }]);
    container.dispatchEvent(new Event('controllerchange'));
    expect(reload).toHaveBeenCalledTimes(1);
    await taking;
  });

  it('lets a pack begin under the lock that the service worker asks for, and none once a version waits', async () => {
    const { registration, container } = fakeWorkers({});
    const names: string[] = [];
    const locks = {
      request: async (name: string, work: () => Promise<unknown>) => {
        names.push(name);
        return work();
      },
    } as unknown as LockManager;
    const versions = watchVersions({ workers: container, reload: vi.fn(), locks });
    await turn();
    const work = vi.fn(() => Promise.resolve());
    expect(await versions.unlessWaiting(work)).toBe(true);
    registration.waiting = fakeWorker();
    expect(await versions.unlessWaiting(work)).toBe(false);
    expect(work).toHaveBeenCalledTimes(1);
    const guard = readFileSync(new URL('../../public/open-pack-guard.js', import.meta.url), 'utf8');
    expect(guard).toContain(`const LOCK = '${names[0] ?? ''}';`);
  });

  it('that does not take over is not tried for ever', async () => {
    const { registration, container } = fakeWorkers({});
    registration.waiting = fakeWorker();
    const versions = watchVersions({ workers: container, reload: vi.fn(), limitMs: 1 });
    await turn();
    expect(versions.isWaiting()).toBe(true);
    await versions.takeUp();
    expect(versions.isWaiting()).toBe(false);
  });

  it('does not load the page anew for the very first worker', async () => {
    const { container } = fakeWorkers(null);
    const reload = vi.fn();
    watchVersions({ workers: container, reload });
    await turn();
    container.dispatchEvent(new Event('controllerchange'));
    expect(reload).not.toHaveBeenCalled();
    container.dispatchEvent(new Event('controllerchange'));
    expect(reload).toHaveBeenCalledTimes(1);
  });

  it('one that is refused is not told of, and a server that is gone does no harm', async () => {
    const { registration, container } = fakeWorkers({});
    const versions = watchVersions({ workers: container, reload: vi.fn() });
    const told = vi.fn();
    versions.onWaiting(told);
    versions.look();
    await turn();
    versions.look();
    expect(registration.update).toHaveBeenCalledTimes(1);
    const worker = fakeWorker();
    registration.installing = worker;
    registration.dispatchEvent(new Event('updatefound'));
    registration.installing = null;
    worker.dispatchEvent(new Event('statechange'));
    expect(told).not.toHaveBeenCalled();
  });
});

/** Stands in for the watch: the test says when one waits. */
function fakeVersions() {
  let listener: () => void = () => undefined;
  let failTakeUp: () => void = () => undefined;
  /** `held`: how many beginnings of packs kept new versions away; `first`: one is installed before the next of them. */
  const state = { waiting: false, looks: 0, takeUps: 0, held: 0, first: false };
  const versions: NewVersion = {
    isWaiting: () => state.waiting,
    onWaiting: (one) => (listener = one),
    look: () => (state.looks += 1),
    unlessWaiting: async (work) => {
      if (state.first) state.waiting = true;
      if (state.waiting) return false;
      await work();
      state.held += 1;
      return true;
    },
    takeUp: () => {
      state.takeUps += 1;
      return new Promise((done) => (failTakeUp = done));
    },
  };
  return {
    state,
    versions,
    arrives: () => {
      state.waiting = true;
      listener();
    },
    fails: () => {
      state.waiting = false;
      failTakeUp();
    },
  };
}

describe('the kiosk with a new version', () => {
  it('takes it up at the start, and takes no badge meanwhile', async () => {
    const { versions, state, arrives, fails } = fakeVersions();
    const rig = await startRig({ versions });
    expect(state).toMatchObject({ looks: 1, takeUps: 0 });
    arrives();
    expect(rig.view()).toMatchObject({ screen: 'loading', text: /new version/ });
    await rig.badge('hazel-orrin');
    expect(rig.view().screen).toBe('loading');
    fails();
    await rig.settle();
    expect(rig.view().screen).toBe('start');
    await rig.badge('hazel-orrin');
    expect(rig.view().screen).toBe('pack');
    expect(state.takeUps).toBe(1);
  });

  it('leaves it alone while a pack is open, also after a restart', async () => {
    const { versions, state, arrives } = fakeVersions();
    const rig = await startRig({ versions });
    await rig.badge('hazel-orrin');
    arrives();
    expect(rig.view().screen).toBe('pack');
    expect(state.takeUps).toBe(0);
  });

  it('takes it up before a badge opens a pack, whatever the start screen has to say', async () => {
    const { versions, state } = fakeVersions();
    const rig = await startRig({ versions });
    await rig.badge('kester-lund');
    state.waiting = true;
    await rig.badge('hazel-orrin');
    expect(rig.view().screen).toBe('loading');
    expect(state.takeUps).toBe(1);
  });

  it('that is installed just before the first fact is stored takes over, and no pack begins', async () => {
    const { versions, state, fails } = fakeVersions();
    const rig = await startRig({ versions });
    state.first = true;
    await rig.badge('hazel-orrin');
    expect(rig.view().screen).toBe('loading');
    expect(state).toMatchObject({ takeUps: 1, held: 0 });
    const journal = await rig.ledger.openPacks();
    expect(journal).toEqual({ ok: true, value: [] });
    state.first = false;
    fails();
    await rig.settle();
    await rig.badge('hazel-orrin');
    expect(rig.view().screen).toBe('pack');
  });

  it('is kept away until the first fact is stored, and no longer', async () => {
    const { versions, state } = fakeVersions();
    const rig = await startRig({ versions });
    await rig.badge('hazel-orrin');
    await rig.settle();
    expect(state.held).toBe(1);
    expect(await rig.ledger.openPacks()).toMatchObject({ ok: true, value: [expect.any(String)] });
  });

  it('is kept away no longer than until the storage has refused the first fact', async () => {
    const { versions, state } = fakeVersions();
    const rig = await startRig({ versions });
    rig.ledger.failNext('full');
    await rig.badge('hazel-orrin');
    await rig.settle();
    expect(state.held).toBe(1);
  });

  it('found while something is read is taken up at the return to the start', async () => {
    const { versions, state, arrives } = fakeVersions();
    const rig = await startRig({ versions });
    rig.kiosk.acts.showLicences();
    await rig.settle();
    arrives();
    expect(rig.view().screen).toBe('licences');
    rig.kiosk.acts.leave();
    expect(rig.view().screen).toBe('loading');
    expect(state.takeUps).toBe(1);
  });
});
