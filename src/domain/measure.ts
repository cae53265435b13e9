/** Comparing a measured length with what it should be. */
import type { Quantity } from './quantity';
import { compareQuantities, subtract } from './quantity';

/** Measured minus expected, in the unit of `expected`: above zero is too long. */
export function deviationOf(measured: Quantity, expected: Quantity): number {
  const { value } = subtract(expected, measured);
  return value === 0 ? 0 : -value;
}

/** True from `lowest` to `highest`, both counted in. A value that is no number lies outside. */
export function withinBand(measured: Quantity, lowest: Quantity, highest: Quantity): boolean {
  if (!Number.isFinite(measured.value)) return false;
  return compareQuantities(measured, lowest) >= 0 && compareQuantities(measured, highest) <= 0;
}
