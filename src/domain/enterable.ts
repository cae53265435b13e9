/** What can be entered at a table at all, by voice and by touch: nothing may be asked for that nobody could answer. */
import type { Band } from './measure';
import type { Quantity, Unit } from './quantity';
import { compareQuantities, inUnit } from './quantity';

/** The largest count that is taken; nothing on a packing table comes in greater numbers. */
export const MOST_COUNTED = 200;
/** The largest whole number that the grammars know (`numbers.gram`). */
const MOST_SAID = 999;
/** The largest number that names a stage or a finding (`numbers.gram`, one to ninety-nine). */
export const MOST_NUMBERED = 99;
/** A figure from here on was misheard or mistyped: longer than any line in a loft, in whatever unit. */
export const MOST_MEASURED = 10_000;
/** Characters that the pad takes, the decimal point among them. */
export const LONGEST_TYPED = 6;

/** Units of the same tape: a length asked for in feet may be given in inches. The first is the unit asked for. */
export const SAME_TAPE: Readonly<Record<Unit, readonly Unit[]>> = {
  in: ['in', 'ft'],
  ft: ['ft', 'in'],
  cm: ['cm', 'mm'],
  mm: ['mm', 'cm'],
};

/** Steps in one unit that can be both said and typed: sixteenths on an inch tape, else hundredths up to 999.99. */
const STEPS: Readonly<Record<Unit, number>> = { in: 16, ft: 100, cm: 100, mm: 100 };

const WORDS: Readonly<Record<Unit, string>> = { in: 'inches', ft: 'feet', cm: 'centimetres', mm: 'millimetres' };

/** Why this exact length cannot be entered in its own unit or in one that is offered beside it; null when it can. */
export function entryFault(length: Quantity): string | null {
  const { value, unit } = length;
  if (Math.floor(value) > MOST_SAID) return `numbers above ${String(MOST_SAID)} cannot be said; use a larger unit`;
  const beside = SAME_TAPE[unit].find((other) => inUnit(length, other).value >= MOST_MEASURED);
  if (beside !== undefined) {
    return `${WORDS[beside]} are offered beside it, and ${String(MOST_MEASURED)} of them or more are taken for a mistake`;
  }
  const steps = value * STEPS[unit];
  if (Math.abs(steps - Math.round(steps)) < 1e-9) return null;
  return unit === 'in' ? 'inches are typed in sixteenths' : 'it is typed with at most two decimals';
}

/** True where at least one length from `lowest` to `highest` can be entered in the unit of `lowest`. */
export function holdsEntry({ lowest, highest }: Band): boolean {
  const step = 1 / STEPS[lowest.unit];
  const next: Quantity = { value: Math.ceil(lowest.value / step - 1e-9) * step, unit: lowest.unit };
  return compareQuantities(next, highest) <= 0 && compareQuantities(lowest, highest) <= 0;
}
