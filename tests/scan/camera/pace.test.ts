/** The pace of looking: quick when a label comes to rest, slow when nothing happens. */
import { describe, expect, it } from 'vitest';
import { FIRST_PACE, isIdle, isMoving, PACE_MS, paceMs, paceStep, thumbnailOf } from '../../../src/scan/camera/pace';
import { emptyPicture, labelPicture } from '../pictures';

const table = { payload: 'QC-204-118', symbology: 'code128', clutter: 20, scale: 3 } as const;

describe('pace', () => {
  it('takes its time while the picture changes, hurries when it rests, and then idles', async () => {
    const [bare, laid] = [thumbnailOf(await emptyPicture(4)), thumbnailOf(await labelPicture(table))];
    let state = paceStep(FIRST_PACE, bare, 0);
    expect(paceMs(state, 0, false)).toBe(PACE_MS.moving);
    state = paceStep(state, laid, 70);
    expect(paceMs(state, 70, false)).toBe(PACE_MS.moving);
    state = paceStep(state, laid, 140);
    expect(paceMs(state, 140, false)).toBe(PACE_MS.atRest);
    state = paceStep(state, laid, 1200);
    expect(paceMs(state, 1200, false)).toBe(PACE_MS.atRest);
    state = paceStep(state, laid, 1400);
    expect(paceMs(state, 1400, false)).toBe(PACE_MS.glance);
    expect(paceMs(state, 1400, true)).toBe(PACE_MS.atRest);
    expect([70, 1200, 1400].map((timeMs) => isIdle(state, timeMs))).toEqual([false, false, true]);
    expect([70, 1200, 1400].map((timeMs) => isMoving(state, timeMs))).toEqual([true, false, false]);
  });

  it('does not take noise or a trembling hand for a change', async () => {
    const first = thumbnailOf(await labelPicture({ ...table, noise: 10, seed: 3 }));
    const state = paceStep(FIRST_PACE, first, 0);
    const shifted = { ...table, at: [0.5 + 2 / 1280, 0.5 + 2 / 720] as const };
    for (const [index, noise] of [10, 25].entries()) {
      // The same patches on the table, since the noise is drawn after them.
      const next = thumbnailOf(await labelPicture({ ...shifted, noise, seed: 3 }));
      expect(paceStep(state, next, 50 + index)).toBe(state);
    }
  });

  it('takes a label that is laid, moved or taken away for a change', async () => {
    const bare = await labelPicture({ ...table, at: [-2, -2] });
    const laid = await labelPicture(table);
    const moved = await labelPicture({ ...table, at: [0.4, 0.5] });
    for (const [before, after] of [
      [bare, laid],
      [laid, moved],
      [laid, bare],
    ] as const) {
      const state = paceStep(FIRST_PACE, thumbnailOf(before), 0);
      expect(paceStep(state, thumbnailOf(after), 9).changedMs).toBe(9);
    }
  });
});
