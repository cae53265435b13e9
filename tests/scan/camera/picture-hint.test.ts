/** What would help, measured on made pictures, and that it does not flicker. */
import { describe, expect, it } from 'vitest';
import { hintOf, hintStep, measurePicture, NO_HINT } from '../../../src/scan/camera/picture-hint';
import type { Hint, HintState } from '../../../src/scan/camera/picture-hint';
import { emptyPicture, labelPicture } from '../pictures';
import type { PictureOptions } from '../pictures';

const LABEL = { payload: 'QC-204-118', symbology: 'code128', scale: 4 } as const;

async function hintFor(options: Partial<PictureOptions>, isMoving = false): Promise<Hint | null> {
  return hintOf(measurePicture(await labelPicture({ ...LABEL, ...options, seed: 5 })), isMoving);
}

describe('what would help', () => {
  it.each<[string, Partial<PictureOptions>, Hint | null]>([
    ['a good label', {}, null],
    ['a good label askew', { rotate: 30 }, null],
    ['a good label in noise', { noise: 10 }, null],
    ['a label that is far away', { scale: 1.5 }, 'closer'],
    ['a matrix code that is far away', { scale: 2, symbology: 'qr' }, 'closer'],
    ['a label out of focus', { blur: 2 }, 'holdStill'],
    ['a label that is smeared', { motion: 8 }, 'holdStill'],
  ])('%s', async (_name, options, hint) => {
    expect(await hintFor(options)).toBe(hint);
  });

  it('is stillness while the picture changes, and nothing while no label is held up', async () => {
    expect(await hintFor({}, true)).toBe('holdStill');
    for (const seed of [1, 2, 3]) {
      const table = await labelPicture({ ...LABEL, at: [-4, -4], clutter: 20, seed });
      expect(hintOf(measurePicture(table), true)).toBeNull();
    }
  });

  it('is light where hardly anything can be seen', async () => {
    const { width, height, rgba } = await labelPicture(LABEL);
    const dark = { width, height, rgba: rgba.map((level, at) => (at % 4 === 3 ? level : level / 5)) };
    expect(hintOf(measurePicture(dark), false)).toBe('moreLight');
  });

  it('measures any picture at all', async () => {
    expect(measurePicture({ width: 0, height: 0, rgba: new Uint8ClampedArray() }).edges).toBe(0);
    expect(measurePicture(await emptyPicture(1, { width: 9, height: 7 })).light).toBeGreaterThan(0);
  });
});

describe('a hint', () => {
  const after = (lines: readonly (readonly [number, Hint | null])[]): (Hint | null)[] => {
    let state: HintState = NO_HINT;
    return lines.map(([timeMs, hint]) => (state = hintStep(state, hint, timeMs)).shown);
  };

  it('is shown once it has been right for a while, and goes as slowly', () => {
    expect(
      after([
        [0, 'closer'],
        [600, 'closer'],
        [800, 'closer'],
        [900, null],
        [1500, null],
        [1700, null],
      ]),
    ).toEqual([null, null, 'closer', 'closer', 'closer', null]);
  });

  it('does not flicker with frames that say now this, now that', () => {
    const lines = Array.from({ length: 60 }, (_, at) => [at * 100, at % 2 === 0 ? 'closer' : 'holdStill'] as const);
    expect(new Set(after(lines))).toEqual(new Set([null]));
  });
});
