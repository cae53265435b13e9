/** One frame of the camera as pixels, and the turned or enlarged views of it that the deciding reader looks at. */

export interface Frame {
  readonly width: number;
  readonly height: number;
  /** Four bytes to a pixel: red, green, blue, alpha. */
  readonly rgba: Uint8ClampedArray;
}

/**
 * A view of a frame. Linear codes are read up to some ten degrees askew and, since the reader also looks along the
 * upright, around ninety: with views at 0, 20 and 40 degrees to both sides every angle is within ten of one of them.
 * `crop` is the middle half of width and height, enlarged twice, for small codes.
 */
export const PASSES = ['plain', 'crop', 'turn+20', 'turn-20', 'turn+40', 'turn-40'] as const;
export type Pass = (typeof PASSES)[number];

/** Degrees and enlargement of each view. */
const VIEWS: Readonly<Record<Pass, { readonly degrees: number; readonly zoom: number }>> = {
  plain: { degrees: 0, zoom: 1 },
  crop: { degrees: 0, zoom: 2 },
  'turn+20': { degrees: 20, zoom: 1 },
  'turn-20': { degrees: -20, zoom: 1 },
  'turn+40': { degrees: 40, zoom: 1 },
  'turn-40': { degrees: -40, zoom: 1 },
};

/** How much larger things are in this view than in the frame. */
export function zoomOf(pass: Pass): number {
  return VIEWS[pass].zoom;
}

/** Grey levels of a frame (weights of ITU-R BT.601, in 256ths). */
export function greyOf(frame: Frame): Uint8ClampedArray {
  const { rgba } = frame;
  const grey = new Uint8ClampedArray(rgba.length / 4);
  for (let at = 0, from = 0; at < grey.length; at += 1, from += 4) {
    grey[at] = (77 * (rgba[from] ?? 0) + 150 * (rgba[from + 1] ?? 0) + 29 * (rgba[from + 2] ?? 0)) >> 8;
  }
  return grey;
}

/** Fixed point: places in the frame are counted in 1024ths of a pixel, which is quicker than fractions. */
const ONE = 1024;

/** The frame as this pass looks at it, same size, grey; what lies outside the frame is mid grey. */
export function viewOf(frame: Frame, pass: Pass): Frame {
  if (pass === 'plain') return frame;
  const { width, height } = frame;
  const grey = greyOf(frame);
  const { degrees, zoom } = VIEWS[pass];
  const cos = Math.cos((degrees * Math.PI) / 180) / zoom;
  const sin = Math.sin((degrees * Math.PI) / 180) / zoom;
  const stepX = Math.round(cos * ONE);
  const stepY = Math.round(sin * ONE);
  const out = new Uint8ClampedArray(width * height * 4);
  const words = new Uint32Array(out.buffer).fill(0xff808080);
  for (let y = 0; y < height; y += 1) {
    // The place in the frame that the first pixel of this row shows, then a constant step along the row.
    let fromX = Math.round(((-width / 2) * cos - (y - height / 2) * sin + width / 2) * ONE);
    let fromY = Math.round(((-width / 2) * sin + (y - height / 2) * cos + height / 2) * ONE);
    for (let x = 0; x < width; x += 1, fromX += stepX, fromY += stepY) {
      const left = fromX >> 10;
      const top = fromY >> 10;
      if (left < 0 || top < 0 || left >= width - 1 || top >= height - 1) continue;
      const at = top * width + left;
      const right = fromX & (ONE - 1);
      const down = fromY & (ONE - 1);
      const upper = (grey[at] ?? 0) * (ONE - right) + (grey[at + 1] ?? 0) * right;
      const lower = (grey[at + width] ?? 0) * (ONE - right) + (grey[at + width + 1] ?? 0) * right;
      const level = (upper * (ONE - down) + lower * down) >>> 20;
      words[y * width + x] = 0xff000000 | (level << 16) | (level << 8) | level;
    }
  }
  return { width, height, rgba: out };
}
