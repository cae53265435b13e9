/** Lengths with their unit. Inches carry binary fractions down to a sixteenth, which doubles hold exactly. */
import { assert } from './assert';
import type { Result } from './result';
import { ok, refused } from './result';

export const UNITS = ['in', 'ft', 'cm', 'mm'] as const;
export type Unit = (typeof UNITS)[number];

export interface Quantity {
  readonly value: number;
  readonly unit: Unit;
}

/** The inch is exactly 25.4 mm and the foot 12 inches (international yard and pound agreement, 1959). */
const MICROMETRES: Readonly<Record<Unit, number>> = { in: 25_400, ft: 304_800, cm: 10_000, mm: 1_000 };
/** Tapes in feet and inches are marked in fractions, metric ones are not. */
const FRACTIONAL: readonly Unit[] = ['in', 'ft'];
const DENOMINATORS = [2, 4, 8, 16];
const FORM = /^(?:(\d{1,6})|(\d{1,6}\.\d{1,6})|(?:(\d{1,6}) )?(\d{1,2})\/(\d{1,2})) +(\S+)$/;

function isUnit(text: string): text is Unit {
  return UNITS.some((unit) => unit === text);
}

/** Takes away the noise of binary arithmetic, far below anything a tape can show. */
function tidy(value: number): number {
  const rounded = Math.round(value * 1e9) / 1e9;
  return rounded === 0 ? 0 : rounded;
}

/** The same length in another unit. */
export function inUnit(quantity: Quantity, unit: Unit): Quantity {
  if (quantity.unit === unit) return quantity;
  return { value: tidy((quantity.value * MICROMETRES[quantity.unit]) / MICROMETRES[unit]), unit };
}

/** `a + b`, in the unit of `a`. */
export function add(a: Quantity, b: Quantity): Quantity {
  return { value: tidy(a.value + inUnit(b, a.unit).value), unit: a.unit };
}

/** `a - b`, in the unit of `a`; may be below zero. */
export function subtract(a: Quantity, b: Quantity): Quantity {
  return { value: tidy(a.value - inUnit(b, a.unit).value), unit: a.unit };
}

/** `n` times the length. */
export function scale(quantity: Quantity, n: number): Quantity {
  return { value: tidy(quantity.value * n), unit: quantity.unit };
}

/** Below zero when `a` is shorter, above when longer; zero when they are within one micrometre. */
export function compareQuantities(a: Quantity, b: Quantity): number {
  const difference = a.value * MICROMETRES[a.unit] - b.value * MICROMETRES[b.unit];
  return Math.abs(difference) <= 1 ? 0 : difference;
}

/** A value as riggers read it off: whole part and, on inch tapes, the fraction in lowest terms; else a decimal. */
export interface MixedNumber {
  readonly whole: number;
  /** Null where there is none. */
  readonly fraction: { readonly over: number; readonly under: number } | null;
}

/** Splits a length that is not below zero into whole and fraction; null where no sixteenth fits. */
export function mixedNumber(quantity: Quantity): MixedNumber | null {
  const value = Math.abs(quantity.value);
  const whole = Math.floor(value);
  if (value === whole) return { whole, fraction: null };
  if (!FRACTIONAL.includes(quantity.unit)) return null;
  const sixteenths = (value - whole) * 16;
  if (!Number.isInteger(sixteenths)) return null;
  const under = DENOMINATORS.find((denominator) => Number.isInteger((sixteenths * denominator) / 16));
  assert(under !== undefined, 'a sixteenth always fits');
  return { whole, fraction: { over: (sixteenths * under) / 16, under } };
}

/** Rounds to a thousandth of the unit, for people; the exact value stays in the quantity. */
export function forPeople(value: number): number {
  return Math.round(value * 1000) / 1000;
}

/** "37 in", "1 1/4 in", "30.5 cm"; inverse of `parseQuantity` for sixteenths and for up to three decimals. */
export function makeQuantity(quantity: Quantity): string {
  assert(Number.isFinite(quantity.value), 'a length is a finite number');
  const mixed = mixedNumber(quantity);
  const sign = quantity.value < 0 ? '-' : '';
  if (mixed === null) return `${String(forPeople(quantity.value))} ${quantity.unit}`;
  const { whole, fraction } = mixed;
  if (fraction === null) return `${sign}${String(whole)} ${quantity.unit}`;
  const part = `${String(fraction.over)}/${String(fraction.under)}`;
  return `${sign}${whole === 0 ? '' : `${String(whole)} `}${part} ${quantity.unit}`;
}

/** Reads "37 in", "1 1/4 in", "1.25 in", "3 ft", "30.5 cm". A length below zero is none. */
export function parseQuantity(text: string): Result<Quantity, 'bad-quantity' | 'unknown-unit'> {
  const match = FORM.exec(text.trim());
  if (match === null) {
    return refused('bad-quantity', `"${text}" is not a length. Write a number, a space and a unit, like 1 1/4 in.`);
  }
  const [, plain, decimal, whole, over, under, unit = ''] = match;
  if (!isUnit(unit)) return refused('unknown-unit', `"${unit}" is not a unit. Use one of ${UNITS.join(', ')}.`);
  if (over === undefined || under === undefined) return ok({ value: Number(plain ?? decimal), unit });
  if (!FRACTIONAL.includes(unit)) {
    return refused('bad-quantity', `"${text}" has a fraction in ${unit}. Write it as a decimal.`);
  }
  if (!DENOMINATORS.includes(Number(under)) || Number(over) < 1 || Number(over) >= Number(under)) {
    return refused('bad-quantity', `"${text}": use halves, quarters, eighths or sixteenths below one.`);
  }
  return ok({ value: Number(whole ?? '0') + Number(over) / Number(under), unit });
}
