/** How often frames are looked at: quickly while the picture changes or something is being read, slowly otherwise. */
import type { Frame } from './frame';

const COLUMNS = 32;
const ROWS = 18;
/** Points averaged in each block, per side: enough to keep sensor noise out. */
const POINTS = 4;
/** A block has changed when its mean grey moved this far; the picture has when this many blocks did. */
const BLOCK_CHANGE = 10;
const BLOCKS_CHANGED = 2;
/** The picture counts as busy this long after its last change: a full turn of views and the agreeing frame, twice. */
const BUSY_MS = 1500;

/** Milliseconds from one frame to the next. */
export const PACE_MS = { reading: 0, busy: 70, idle: 300 } as const;

/** Mean grey of each block of the frame. */
export type Thumbnail = Uint8Array;

/** Reduces a frame to 32 by 18 grey blocks. No picture can be made out of it, and it is the only thing kept. */
export function thumbnailOf(frame: Frame): Thumbnail {
  const out = new Uint8Array(COLUMNS * ROWS);
  const stepX = frame.width / (COLUMNS * POINTS);
  const stepY = frame.height / (ROWS * POINTS);
  for (let block = 0; block < out.length; block += 1) {
    const left = (block % COLUMNS) * POINTS;
    const top = Math.floor(block / COLUMNS) * POINTS;
    let sum = 0;
    for (let point = 0; point < POINTS * POINTS; point += 1) {
      const x = Math.floor((left + (point % POINTS) + 0.5) * stepX);
      const y = Math.floor((top + Math.floor(point / POINTS) + 0.5) * stepY);
      // Green alone stands for brightness well enough to see a change.
      sum += frame.rgba[(y * frame.width + x) * 4 + 1] ?? 0;
    }
    out[block] = sum / (POINTS * POINTS);
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

/** How long to wait before the next frame. `undecided`: something was read that no second frame has confirmed. */
export function paceMs(state: PaceState, timeMs: number, undecided: boolean): number {
  if (undecided) return PACE_MS.reading;
  return timeMs - state.changedMs <= BUSY_MS ? PACE_MS.busy : PACE_MS.idle;
}
