/** One frame of the camera as pixels, and the turned, enlarged or mended views of it that the deciding reader sees. */
import { assert } from '../../domain/assert';
import { calmed, smoothed, strengthened } from './filters';
import type { Grey } from './filters';

export interface Frame {
  readonly width: number;
  readonly height: number;
  /** Four bytes to a pixel: red, green, blue, alpha. */
  readonly rgba: Uint8ClampedArray;
}

/**
 * A view of a frame. Linear codes are read up to some ten degrees askew and, since the reader also looks along the
 * upright, around ninety: with views at 0, 20 and 40 degrees to both sides every angle is within ten of one of them.
 * `clear` and `crop` are the middle of the frame, enlarged twice, for small codes; `clear` also undoes some of the
 * blur. `soft` takes noise out and brings faint print up. Good labels at an angle are many, and bad pictures can wait:
 * the turned views come first, and the mended ones, which take longest, last.
 */
export const PASSES = ['plain', 'turn+20', 'turn-20', 'turn+40', 'turn-40', 'crop', 'clear', 'soft'] as const;
export type Look = (typeof PASSES)[number];

/**
 * The same look with the frame turned or enlarged a little more: other pixels make up the bars, so that an edge which
 * fell wrongly in one view falls rightly in the other. Measured: a label 55 degrees from the side gives two wrong
 * characters that pass every check in `plain`, frame after frame, and the right ones in all three of these. Turned by 5
 * degrees a tenth of the linear codes that `plain` reads are read no more; one of these three reads nearly all.
 */
export const NUDGES = ['+1.5', '-1.5', '*1.25'] as const;
type Nudge = (typeof NUDGES)[number];
export type Pass = Look | `${Look}${Nudge}`;

interface View {
  readonly degrees: number;
  readonly zoom: number;
  readonly filter: 'none' | 'clear' | 'soft';
  /** Width of the view as a multiple of the frame's; its height likewise. */
  readonly size: number;
}

function view(degrees: number, differing: Partial<View> = {}): View {
  return { degrees, zoom: 1, filter: 'none', size: 1, ...differing };
}

const LOOKS: Readonly<Record<Look, View>> = {
  plain: view(0),
  clear: view(0, { zoom: 2, filter: 'clear', size: 1.25 }),
  'turn+20': view(20),
  'turn-20': view(-20),
  'turn+40': view(40),
  'turn-40': view(-40),
  soft: view(0, { filter: 'soft' }),
  crop: view(0, { zoom: 2 }),
};

const NUDGED: Readonly<Record<Nudge, (seen: View) => View>> = {
  '+1.5': (seen) => ({ ...seen, degrees: seen.degrees + 1.5 }),
  '-1.5': (seen) => ({ ...seen, degrees: seen.degrees - 1.5 }),
  '*1.25': (seen) => ({ ...seen, zoom: seen.zoom * 1.25, size: seen.size * 1.25 }),
};

const VIEWS: ReadonlyMap<Pass, View & { readonly look: Look }> = new Map(
  PASSES.flatMap((look) => [
    [look, { ...LOOKS[look], look }] as const,
    ...NUDGES.map((nudge) => [`${look}${nudge}`, { ...NUDGED[nudge](LOOKS[look]), look }] as const),
  ]),
);

function viewNamed(pass: Pass): View & { readonly look: Look } {
  const view = VIEWS.get(pass);
  assert(view !== undefined, 'every pass has a view');
  return view;
}

/** The look that a view belongs to. */
export function lookOf(pass: Pass): Look {
  return viewNamed(pass).look;
}

/** How much of the frame's height this view shows. */
export function partShown(pass: Pass): number {
  const { size, zoom } = viewNamed(pass);
  return size / zoom;
}

/** Grey levels of a frame (weights of ITU-R BT.601, in 256ths). */
export function greyOf({ width, height, rgba }: Frame): Grey {
  const levels = new Uint8ClampedArray(rgba.length / 4);
  for (let at = 0, from = 0; at < levels.length; at += 1, from += 4) {
    levels[at] = (77 * (rgba[from] ?? 0) + 150 * (rgba[from + 1] ?? 0) + 29 * (rgba[from + 2] ?? 0)) >> 8;
  }
  return { width, height, levels };
}

/** Grey levels as pixels again. */
function frameOf({ width, height, levels }: Grey): Frame {
  const rgba = new Uint8ClampedArray(levels.length * 4);
  const words = new Uint32Array(rgba.buffer);
  for (let at = 0; at < levels.length; at += 1) words[at] = 0xff000000 | ((levels[at] ?? 0) * 0x10101);
  return { width, height, rgba };
}

/** Measured on made frames: reach and gain that read most without ever reading wrongly. */
function filtered(grey: Grey, filter: View['filter']): Grey {
  switch (filter) {
    case 'none':
      return grey;
    case 'clear':
      return strengthened(calmed(grey), 2, 5);
    case 'soft':
      return strengthened(smoothed(grey, 1), 10, 6);
  }
}

/** Fixed point: places in the frame are counted in 1024ths of a pixel, which is quicker than fractions. */
const ONE = 1024;

/** The picture turned and enlarged about its middle; what lies outside is mid grey. */
function turned({ width, height, levels }: Grey, { degrees, zoom, size }: View): Grey {
  const [outWidth, outHeight] = [Math.round(width * size), Math.round(height * size)];
  const cos = Math.cos((degrees * Math.PI) / 180) / zoom;
  const sin = Math.sin((degrees * Math.PI) / 180) / zoom;
  const stepX = Math.round(cos * ONE);
  const stepY = Math.round(sin * ONE);
  const out = new Uint8ClampedArray(outWidth * outHeight).fill(128);
  for (let y = 0; y < outHeight; y += 1) {
    // The place in the frame that the first pixel of this row shows, then a constant step along the row.
    let fromX = Math.round(((-outWidth / 2) * cos - (y - outHeight / 2) * sin + width / 2) * ONE);
    let fromY = Math.round(((-outWidth / 2) * sin + (y - outHeight / 2) * cos + height / 2) * ONE);
    for (let x = 0; x < outWidth; x += 1, fromX += stepX, fromY += stepY) {
      const left = fromX >> 10;
      const top = fromY >> 10;
      if (left < 0 || top < 0 || left >= width - 1 || top >= height - 1) continue;
      const at = top * width + left;
      const right = fromX & (ONE - 1);
      const down = fromY & (ONE - 1);
      const upper = (levels[at] ?? 0) * (ONE - right) + (levels[at + 1] ?? 0) * right;
      const lower = (levels[at + width] ?? 0) * (ONE - right) + (levels[at + width + 1] ?? 0) * right;
      out[y * outWidth + x] = (upper * (ONE - down) + lower * down) >>> 20;
    }
  }
  return { width: outWidth, height: outHeight, levels: out };
}

/** The frame as this pass looks at it, grey. */
export function viewOf(frame: Frame, pass: Pass): Frame {
  if (pass === 'plain') return frame;
  const view = viewNamed(pass);
  const mended = filtered(greyOf(frame), view.filter);
  return frameOf(view.degrees === 0 && view.zoom === 1 ? mended : turned(mended, view));
}
