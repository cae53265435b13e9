/** How long one fact takes until it is durably stored, in real Chromium on a profile on the disk. */
import { withStoreBrowser } from './store-browser';
import type {} from './store-page';

export interface AppendFigures {
  readonly n: number;
  /** Milliseconds from the call to the answer. */
  readonly p50: number;
  readonly p95: number;
  readonly p99: number;
}

const APPENDS = 1_000;
const WARM_UP = 50;

/** Measures strict appends of one fact each, back to back. */
export async function benchAppend(): Promise<AppendFigures> {
  const times = await withStoreBrowser((inPage) =>
    inPage((page) =>
      page.evaluate(([n, warmUp]) => window.storeBench.timeAppends(n, warmUp), [APPENDS, WARM_UP] as const),
    ),
  );
  return { n: times.length, p50: percentile(times, 50), p95: percentile(times, 95), p99: percentile(times, 99) };
}

/** Nearest rank: the smallest time that at least `percent` of all do not exceed. */
export function percentile(times: readonly number[], percent: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  const value = sorted[Math.max(0, Math.ceil((percent / 100) * sorted.length) - 1)];
  if (value === undefined) throw new Error('There is no percentile of no times');
  return Math.round(value * 100) / 100;
}
