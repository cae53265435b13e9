/** Repack intervals as data: rule sets differ by country, service and fibre, so none is a constant. */

/**
 * `inclusive`: the day `interval` after packing is still in date.
 * `exclusive`: that day is already overdue. Riggers read the rules both ways, so a loft names its own.
 */
export const BOUNDARIES = ['inclusive', 'exclusive'] as const;
export type Boundary = (typeof BOUNDARIES)[number];

export interface RepackRule {
  readonly id: string;
  readonly title: string;
  readonly interval: { readonly days: number } | { readonly months: number };
  readonly boundary: Boundary;
}
