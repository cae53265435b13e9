/** What makes a code in a bad picture stand out: grey levels in, grey levels out, same size. */

/** A picture of grey levels (0 to 255, fractions kept between filters), row by row. */
export interface Grey {
  readonly width: number;
  readonly height: number;
  readonly levels: Uint8ClampedArray | Float32Array;
}

/** Running mean over `2 * reach + 1` pixels, along rows or along columns; rims go on outwards. */
function meanAlong({ width, height, levels }: Grey, reach: number, along: 'rows' | 'columns'): Grey {
  const [length, lines] = along === 'rows' ? [width, height] : [height, width];
  const [step, lineStep] = along === 'rows' ? [1, width] : [width, 1];
  const out = new Float32Array(levels.length);
  const share = 1 / (2 * reach + 1);
  for (let line = 0; line < lines; line += 1) {
    const start = line * lineStep;
    const end = start + (length - 1) * step;
    let sum = (levels[start] ?? 0) * (reach + 1);
    for (let near = 1; near <= reach; near += 1) sum += levels[start + Math.min(near, length - 1) * step] ?? 0;
    let behind = start - reach * step;
    let ahead = start + (reach + 1) * step;
    for (let at = start; at <= end; at += step) {
      out[at] = sum * share;
      sum += (levels[ahead > end ? end : ahead] ?? 0) - (levels[behind < start ? start : behind] ?? 0);
      ahead += step;
      behind += step;
    }
  }
  return { width, height, levels: out };
}

function squareMean(grey: Grey, reach: number): Grey {
  return meanAlong(meanAlong(grey, reach, 'rows'), reach, 'columns');
}

/** Smoothed over `reach` pixels: twice the mean over a square, which is near to a bell. */
export function smoothed(grey: Grey, reach: number): Grey {
  return squareMean(squareMean(grey, reach), reach);
}

/** Smoothed as little as can be: weights 1, 2, 1 both ways. Against noise, before something stronger. */
export function calmed({ width, height, levels }: Grey): Grey {
  const rows = new Float32Array(levels.length);
  const last = levels.length - 1;
  for (let at = 0; at <= last; at += 1) {
    const middle = levels[at] ?? 0;
    rows[at] = ((levels[at - 1] ?? middle) + 2 * middle + (levels[at + 1] ?? middle)) / 4;
  }
  const out = new Float32Array(levels.length);
  for (let at = 0; at <= last; at += 1) {
    const middle = rows[at] ?? 0;
    out[at] = ((rows[at - width] ?? middle) + 2 * middle + (rows[at + width] ?? middle)) / 4;
  }
  return { width, height, levels: out };
}

/** What differs from the surroundings (`reach` pixels about), made `gain` times stronger. */
export function strengthened(grey: Grey, reach: number, gain: number): Grey {
  const around = smoothed(grey, reach).levels;
  const levels = new Uint8ClampedArray(around.length);
  for (let at = 0; at < levels.length; at += 1) {
    const level = around[at] ?? 0;
    levels[at] = level + gain * ((grey.levels[at] ?? 0) - level);
  }
  return { ...grey, levels };
}
