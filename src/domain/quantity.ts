/** Lengths with their unit. Inches carry binary fractions down to a sixteenth, which doubles hold exactly. */

export const UNITS = ['in', 'ft', 'cm', 'mm'] as const;
export type Unit = (typeof UNITS)[number];

export interface Quantity {
  readonly value: number;
  readonly unit: Unit;
}
