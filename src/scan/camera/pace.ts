/**
 * How often frames are looked at. A label that moves cannot be read, so while the picture changes the readers take
 * their time; when it comes to rest they go through all views as fast as they can; and when nothing more happens they
 * look only now and then.
 */
import type { Frame } from './frame';

const COLUMNS = 32;
const ROWS = 18;
/** Every second pixel both ways: enough to keep noise and a hand's tremor out of the mean. */
const STEP = 2;
/** A block has changed when its mean grey moved this far; the picture has when this many blocks did. */
const BLOCK_CHANGE = 20;
const BLOCKS_CHANGED = 3;
/** The picture counts as just come to rest this long: two turns of views, generously. */
const FRESH_MS = 1200;

/**
 * Milliseconds from one frame to the next. When nothing happens frames are only glanced at, for a change, and read
 * at longer intervals.
 */
export const PACE_MS = { atRest: 0, moving: 70, glance: 50, read: 300 } as const;

/** Mean grey of each block of the frame: 32 by 18 numbers, in which nothing can be made out. */
export type Thumbnail = Uint8Array;

function meanOf(frame: Frame, column: number, row: number): number {
  const { width, height, rgba } = frame;
  const [left, right] = [Math.floor((column * width) / COLUMNS), Math.floor(((column + 1) * width) / COLUMNS)];
  const [top, bottom] = [Math.floor((row * height) / ROWS), Math.floor(((row + 1) * height) / ROWS)];
  let sum = 0;
  let count = 0;
  for (let y = top; y < bottom; y += STEP) {
    for (let x = left; x < right; x += STEP) {
      // Green alone stands for brightness well enough to see a change.
      sum += rgba[(y * width + x) * 4 + 1] ?? 0;
      count += 1;
    }
  }
  return count === 0 ? 0 : sum / count;
}

/** Reduces a frame to its blocks. It is all that is ever kept of a frame, and only until the picture changes. */
export function thumbnailOf(frame: Frame): Thumbnail {
  const out = new Uint8Array(COLUMNS * ROWS);
  for (let block = 0; block < out.length; block += 1) {
    out[block] = meanOf(frame, block % COLUMNS, Math.floor(block / COLUMNS));
  }
  return out;
}

export interface PaceState {
  readonly seen: Thumbnail | null;
  readonly changedMs: number;
}

export const FIRST_PACE: PaceState = { seen: null, changedMs: Number.NEGATIVE_INFINITY };

function hasChanged(before: Thumbnail | null, now: Thumbnail): boolean {
  if (before === null) return true;
  let changed = 0;
  for (let block = 0; block < now.length; block += 1) {
    if (Math.abs((now[block] ?? 0) - (before[block] ?? 0)) >= BLOCK_CHANGE) changed += 1;
  }
  return changed >= BLOCKS_CHANGED;
}

/** Takes in the thumbnail of a frame. */
export function paceStep(state: PaceState, thumbnail: Thumbnail, timeMs: number): PaceState {
  return hasChanged(state.seen, thumbnail) ? { seen: thumbnail, changedMs: timeMs } : state;
}

/** True when this very frame shows something new: it is most likely smeared. */
export function isMoving(state: PaceState, timeMs: number): boolean {
  return state.changedMs === timeMs;
}

/** True when nothing has changed for a while. */
export function isIdle(state: PaceState, timeMs: number): boolean {
  return timeMs - state.changedMs > FRESH_MS;
}

/** How long to wait before the next frame. `isUndecided`: something was read that no second frame has confirmed. */
export function paceMs(state: PaceState, timeMs: number, isUndecided: boolean): number {
  if (isUndecided) return PACE_MS.atRest;
  if (isMoving(state, timeMs)) return PACE_MS.moving;
  return isIdle(state, timeMs) ? PACE_MS.glance : PACE_MS.atRest;
}
