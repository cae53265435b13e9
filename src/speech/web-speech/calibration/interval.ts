/** How sure a measured share is. */

export interface Share {
  readonly n: number;
  readonly share: number;
  /** Lower and upper end of the 95 % interval. */
  readonly interval: readonly [number, number];
}

const Z = 1.959964;

/** `count` of `n` with its 95 % interval after Wilson (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927, 209-212). */
export function shareOf(count: number, n: number): Share {
  if (n === 0) return { n, share: 0, interval: [0, 1] };
  const share = count / n;
  const middle = (share + (Z * Z) / (2 * n)) / (1 + (Z * Z) / n);
  const half = (Z / (1 + (Z * Z) / n)) * Math.sqrt((share * (1 - share)) / n + (Z * Z) / (4 * n * n));
  return { n, share, interval: [Math.max(0, middle - half), Math.min(1, middle + half)] };
}
