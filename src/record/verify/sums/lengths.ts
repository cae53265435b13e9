/** Lengths for the verifier: everything in micrometres, compared within one of them. */

export interface Length {
  readonly value: number;
  readonly unit: string;
}

/** The inch is exactly 25.4 mm (international yard and pound agreement, 1959). */
const SIZES: Readonly<Record<string, number>> = { mm: 1_000, cm: 10_000, in: 25_400, ft: 12 * 25_400 };
const NEAR = 1.5;

/** Micrometres; not a number for an unknown unit. */
export function micrometres({ value, unit }: Length): number {
  return typeof value === 'number' ? value * (SIZES[unit] ?? Number.NaN) : Number.NaN;
}

/** Same within the accuracy of the arithmetic. */
export function isNear(a: number, b: number): boolean {
  return Math.abs(a - b) <= NEAR;
}

/** Inside the band, its ends counted in. */
export function isWithin(value: number, lowest: number, highest: number): boolean {
  return value >= lowest - NEAR && value <= highest + NEAR;
}

/** "37 in", "1 1/4 in", "30.5 cm", as a record states lengths. */
export function lengthText({ value, unit }: Length): string {
  const whole = Math.floor(value);
  const sixteenths = (value - whole) * 16;
  const fraction = unit === 'in' || unit === 'ft';
  if (!fraction || sixteenths === 0 || sixteenths !== Math.floor(sixteenths)) {
    return `${String(Math.round(value * 1000) / 1000)} ${unit}`;
  }
  let [over, under] = [sixteenths, 16];
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  return `${whole === 0 ? '' : `${String(whole)} `}${String(over)}/${String(under)} ${unit}`;
}
