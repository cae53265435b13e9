/**
 * Mends the search for the start of a Code 128 symbol in @zxing/library.
 *
 * The library's own search shortens its list of run lengths from six to four to two as it goes past dark patches
 * (`counters.slice`, in 0.21.3 and 0.23.0). Measured: one dark patch left of the label and no GS1-128 label is read;
 * three, and no Code 128 label at all. This is a search of our own behind the same name.
 */
import { Code128Reader, NotFoundException } from '@zxing/library';
import type { BitArray } from '@zxing/library';

/** Bar and space widths of the start characters in modules, eleven in all (ISO/IEC 15417, table of patterns). */
const START_PATTERNS: readonly (readonly [number, readonly number[]])[] = [
  [103, [2, 1, 1, 4, 1, 2]],
  [104, [2, 1, 1, 2, 1, 4]],
  [105, [2, 1, 1, 2, 3, 2]],
];
const MODULES = 11;
const RUNS = 6;
/** Most that one run may be off, and most that all six may be off together, in modules. */
const RUN_SLACK = 0.7;
const TOTAL_SLACK = 2.75;

/** How far six runs are from a pattern, in modules; infinite when one of them is too far off. */
function distance(runs: readonly number[], pattern: readonly number[]): number {
  const unit = runs.reduce((sum, run) => sum + run, 0) / MODULES;
  let total = 0;
  for (let index = 0; index < RUNS; index += 1) {
    const off = Math.abs((runs[index] ?? 0) / unit - (pattern[index] ?? 0));
    if (off > RUN_SLACK) return Number.POSITIVE_INFINITY;
    total += off;
  }
  return total;
}

/** Places where the row changes colour, starting with the first dark pixel and ending with the row's end. */
function edgesOf(row: BitArray): readonly number[] {
  const width = row.getSize();
  const edges: number[] = [];
  let at = row.getNextSet(0);
  while (at < width) {
    edges.push(at);
    at = row.get(at) ? row.getNextUnset(at) : row.getNextSet(at);
  }
  edges.push(width);
  return edges;
}

/** Left and right edge of the start character and its value; throws `NotFoundException`, as the library expects. */
function findStart(row: BitArray): Int32Array {
  const edges = edgesOf(row);
  for (let index = 0; index + RUNS < edges.length; index += 2) {
    const left = edges[index] ?? 0;
    const right = edges[index + RUNS] ?? 0;
    const runs = Array.from({ length: RUNS }, (_, run) => (edges[index + run + 1] ?? 0) - (edges[index + run] ?? 0));
    const ranked = START_PATTERNS.map(([value, pattern]) => [distance(runs, pattern), value] as const);
    const [off, value] = ranked.reduce((best, next) => (next[0] < best[0] ? next : best));
    // Half the character's width must be clear before it, as far as the picture goes.
    const clearFrom = Math.max(0, Math.floor(left - (right - left) / 2));
    if (off <= TOTAL_SLACK && row.isRange(clearFrom, left, false)) return Int32Array.from([left, right, value]);
  }
  throw new NotFoundException();
}

/** Puts our search in the library's place. Safe to call more than once. */
export function mendCode128Start(): void {
  Object.defineProperty(Code128Reader, 'findStartPattern', { value: findStart, configurable: true, writable: true });
}
