/** Comparing a measured length with what it should be. */
import type { Quantity } from './quantity';
import { add, compareQuantities, subtract } from './quantity';

/** From the lowest length that is taken to the highest, both counted in. Where none can be, `lowest` lies above `highest`. */
export interface Band {
  readonly lowest: Quantity;
  readonly highest: Quantity;
}

/** A band around the length that is expected. */
export interface ExpectedBand extends Band {
  readonly expected: Quantity;
}

/** The band around a nominal length with its tolerances. */
export function bandAround(
  nominal: Quantity,
  { under, over }: { readonly under: Quantity; readonly over: Quantity },
): ExpectedBand {
  return { expected: nominal, lowest: subtract(nominal, under), highest: add(nominal, over) };
}

/** Measured minus expected, in the unit of `expected`: above zero is too long. */
export function deviationOf(measured: Quantity, expected: Quantity): number {
  const { value } = subtract(expected, measured);
  return value === 0 ? 0 : -value;
}

/** True from `lowest` to `highest`, both counted in. A value that is no number lies outside. */
export function withinBand(measured: Quantity, { lowest, highest }: Band): boolean {
  if (!Number.isFinite(measured.value)) return false;
  return compareQuantities(measured, lowest) >= 0 && compareQuantities(measured, highest) <= 0;
}
