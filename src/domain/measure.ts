/** Comparing a measured length with what it should be, and saying by how much and which way it is off. */
import type { Quantity, Unit } from './quantity';
import { compareQuantities, subtract } from './quantity';
import { sayQuantity } from './spoken';

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

/** "two inches too long", "half an inch too short"; "exactly right" when there is no deviation. */
export function sayDeviation(deviation: number, unit: Unit): string {
  if (deviation === 0) return 'exactly right';
  return `${sayQuantity({ value: Math.abs(deviation), unit })} too ${deviation > 0 ? 'long' : 'short'}`;
}
