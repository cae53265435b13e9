/** The turn of the cameras: which comes next, and what is said while none works. */
import { describe, expect, it } from 'vitest';
import { createCameraTurn, type CameraTurn } from '../../../src/kiosk/devices/camera-turn';

interface Bench {
  readonly turn: CameraTurn;
  readonly chosen: string[];
  /** Plugs in exactly these; those named in `broken` do not start. */
  plug(ids: readonly string[], broken?: readonly string[]): void;
  restarts(): number;
}

/** Cameras `a`, `b`, ...; the first of them is used until another one is chosen. */
function bench(ids: readonly string[], labels = true): Bench {
  let [plugged, broken]: (readonly string[])[] = [ids, []];
  let used: string | null = ids[0] ?? null;
  let restarts = 0;
  const chosen: string[] = [];
  const turn = createCameraTurn(
    {
      list: () => Promise.resolve((plugged ?? []).map((id) => ({ deviceId: id, label: labels ? `Camera ${id}` : '' }))),
      used: () => used,
      chosen: () => chosen.at(-1) ?? null,
      choose: (id) => void chosen.push(id),
    },
    () => {
      restarts += 1;
      const wanted = chosen.at(-1) ?? null;
      used = wanted === null || broken?.includes(wanted) === true ? null : wanted;
      return Promise.resolve();
    },
  );
  const plug = (now: readonly string[], notWorking: readonly string[] = []): void => {
    [plugged, broken] = [now, notWorking];
  };
  return { turn, chosen, plug, restarts: () => restarts };
}

describe('the choice of a camera', () => {
  it.each([[[]], [['a']]])('is none with %j connected', async (ids) => {
    const { turn } = bench(ids);
    await turn.look();
    expect(turn.view()).toBeNull();
  });

  it('names the one in use, and goes round', async () => {
    const { turn, chosen, restarts } = bench(['a', 'b', 'c']);
    await turn.look();
    expect(turn.view()).toEqual({ used: 'Camera a', count: 3 });
    for (let turns = 0; turns < 3; turns += 1) await turn.next();
    expect(chosen).toEqual(['b', 'c', 'a']);
    expect(restarts()).toBe(3);
    expect(turn.view()).toEqual({ used: 'Camera a', count: 3 });
  });

  it('goes past one that does not start', async () => {
    const { turn, chosen, plug } = bench(['a', 'b', 'c']);
    plug(['a', 'b', 'c'], ['b']);
    await turn.next();
    expect(turn.view()).toEqual({ used: null, count: 3 });
    await turn.next();
    expect(chosen).toEqual(['b', 'c']);
    expect(turn.view()).toEqual({ used: 'Camera c', count: 3 });
  });

  it('goes on with what is still there after one was pulled out', async () => {
    const { turn, chosen, plug } = bench(['a', 'b', 'c']);
    await turn.look();
    plug(['b', 'c']);
    await turn.next();
    expect(chosen).toEqual(['b']);
    expect(turn.view()).toEqual({ used: 'Camera b', count: 2 });
  });

  it('with nothing connected does nothing', async () => {
    const { turn, chosen, restarts } = bench([]);
    await turn.next();
    expect([chosen, restarts()]).toEqual([[], 0]);
  });

  it('has no names before the camera was allowed', async () => {
    const { turn } = bench(['a', 'b'], false);
    await turn.look();
    expect(turn.view()).toEqual({ used: null, count: 2 });
  });

  it('pressed twice at once goes on by one', async () => {
    const { turn, chosen } = bench(['a', 'b', 'c']);
    await Promise.all([turn.next(), turn.next()]);
    expect(chosen).toEqual(['b']);
  });

  it('goes on after a camera whose start was rejected', async () => {
    const chosen: string[] = [];
    let isBroken = true;
    const turn = createCameraTurn(
      {
        list: () => Promise.resolve(['a', 'b', 'c'].map((id) => ({ deviceId: id, label: id }))),
        used: () => null,
        chosen: () => chosen.at(-1) ?? 'a',
        choose: (id) => void chosen.push(id),
      },
      () => (isBroken ? Promise.reject(new Error('the driver gave up')) : Promise.resolve()),
    );
    await turn.next();
    isBroken = false;
    await turn.next();
    expect(chosen).toEqual(['b', 'c']);
  });

  it('is none where the browser does not tell the cameras', async () => {
    const chooser = {
      list: () => Promise.reject(new Error('forbidden')),
      used: () => null,
      chosen: () => null,
      choose: () => undefined,
    };
    const turn = createCameraTurn(chooser, () => Promise.resolve());
    await turn.look();
    await turn.next();
    expect(turn.view()).toBeNull();
  });
});
