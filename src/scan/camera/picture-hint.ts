/** What would help the readers, measured on a frame that shows a label and was not read: closer, still, or more light. */
import type { Frame } from './frame';

export const HINTS = ['closer', 'holdStill', 'moreLight'] as const;
export type Hint = (typeof HINTS)[number];

export interface PictureMeasure {
  /** Mean grey of the middle, 0 to 255. */
  readonly light: number;
  /** Edges in a row of the middle, on average over the rows that have most: many where a code lies. */
  readonly edges: number;
  /** Pixels from one edge to the next, by the middle one of all; infinite for none. */
  readonly spacing: number;
  /** Pixels that an edge takes from dark to light, by the middle one of all; infinite for none. */
  readonly rise: number;
}

/** The middle of the frame, where a label is held; every fourth row of it is enough. */
const PART = 0.6;
const ROW_STEP = 4;
/** An edge: grey changes by this much over two pixels, more than noise does. */
const EDGE_STEP = 22;
/** Edges farther apart than this belong to the table, not to a code that is too small. */
const WITHIN_CODE = 12;
/** How far the dark and the light side of an edge are looked for. */
const REACH = 6;

/** The value that this part of all lies below; infinite for none. */
function quantile(values: readonly number[], part: number): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length * part)] ?? Number.POSITIVE_INFINITY;
}

/** Places in a row where grey changes most steeply. */
function edgesOf(row: ArrayLike<number>): readonly number[] {
  const slope = (x: number): number => Math.abs((row[x + 1] ?? 0) - (row[x - 1] ?? 0));
  const edges: number[] = [];
  for (let x = 2; x < row.length - 2; x += 1) {
    if (slope(x) >= EDGE_STEP && slope(x) >= slope(x - 1) && slope(x) > slope(x + 1)) edges.push(x);
  }
  return edges;
}

/** Change over the edge against its steepest pixel: one pixel where it is sharp. */
function riseAt(row: ArrayLike<number>, x: number): number {
  let [low, high] = [255, 0];
  for (let at = Math.max(0, x - REACH); at <= Math.min(row.length - 1, x + REACH); at += 1) {
    low = Math.min(low, row[at] ?? 0);
    high = Math.max(high, row[at] ?? 0);
  }
  const steepest = Math.abs((row[x + 1] ?? 0) - (row[x - 1] ?? 0)) / 2;
  return steepest === 0 ? Number.POSITIVE_INFINITY : (high - low) / steepest;
}

/** Grey levels of a part of a row, smoothed over its neighbours against noise; green alone stands for brightness. */
function calmRow({ width, height, rgba }: Frame, y: number, [left, right]: readonly [number, number]): Float32Array {
  const [above, below] = [Math.max(0, y - 1), Math.min(height - 1, y + 1)];
  const upright = new Float32Array(right - left);
  for (let x = left; x < right; x += 1) {
    const green = x * 4 + 1;
    const [over, own] = [rgba[above * width * 4 + green] ?? 0, rgba[y * width * 4 + green] ?? 0];
    upright[x - left] = (over + 2 * own + (rgba[below * width * 4 + green] ?? 0)) / 4;
  }
  return upright.map((level, x) => ((upright[x - 1] ?? level) + 2 * level + (upright[x + 1] ?? level)) / 4);
}

/** Measures the middle of a frame. Nothing of the frame is kept. */
export function measurePicture(frame: Frame): PictureMeasure {
  const { width, height } = frame;
  const [left, right] = [Math.floor((width * (1 - PART)) / 2), Math.ceil((width * (1 + PART)) / 2)];
  const rows: { readonly row: ArrayLike<number>; readonly edges: readonly number[] }[] = [];
  let sum = 0;
  const [top, bottom] = [Math.floor((height * (1 - PART)) / 2), Math.floor((height * (1 + PART)) / 2)];
  for (let y = top; y < bottom; y += ROW_STEP) {
    const row = calmRow(frame, y, [left, right]);
    for (const level of row) sum += level;
    rows.push({ row, edges: edgesOf(row) });
  }
  const light = rows.length === 0 ? 0 : sum / (rows.length * (right - left));
  const busiest = rows.toSorted((a, b) => b.edges.length - a.edges.length).slice(0, Math.ceil(rows.length / 8));
  const edges = busiest.reduce((total, { edges: all }) => total + all.length, 0) / Math.max(1, busiest.length);
  const spacings = busiest.flatMap(({ edges: all }) => all.slice(1).map((x, at) => x - (all[at] ?? 0)));
  const rises = busiest.flatMap(({ row, edges: all }) => all.map((x) => riseAt(row, x)));
  return {
    light,
    edges,
    spacing: quantile(
      spacings.filter((gap) => gap <= WITHIN_CODE),
      0.5,
    ),
    rise: quantile(rises, 0.5),
  };
}

/** Below this the middle of the picture is dark; fewer edges are no code; measured on made frames. */
const DARK = 45;
const FEWEST_EDGES = 9;
const SOFT_RISE = 3.7;
const NARROW = 4;

/** What would help most; null where nothing is held up, or nothing is wrong with it that can be seen. */
export function hintOf({ light, edges, spacing, rise }: PictureMeasure, isMoving: boolean): Hint | null {
  if (light < DARK) return 'moreLight';
  if (edges < FEWEST_EDGES) return null;
  if (isMoving) return 'holdStill';
  if (rise > SOFT_RISE) return 'holdStill';
  return spacing <= NARROW ? 'closer' : null;
}

/** A hint has to be right for so long before it is shown, and goes as slowly: it must not flicker. */
const STEADY_MS = 700;

export interface HintState {
  readonly shown: Hint | null;
  readonly next: Hint | null;
  /** Since when `next` has been what the frames say. */
  readonly sinceMs: number;
}

export const NO_HINT: HintState = { shown: null, next: null, sinceMs: 0 };

/** One more frame: what it says counts once frames have said so for a while. */
export function hintStep(state: HintState, hint: Hint | null, timeMs: number): HintState {
  if (hint !== state.next) return { ...state, next: hint, sinceMs: timeMs };
  if (hint === state.shown || timeMs - state.sinceMs < STEADY_MS) return state;
  return { ...state, shown: hint };
}
