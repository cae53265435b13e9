/** Dates for the verifier, reckoned by day numbers of its own, so that no mistake of the writer's can hide in both. */
import type { RepackRule } from '../../../domain/component/repack-rule';

const FORM = /^(\d{4})-(\d{2})-(\d{2})$/;

interface Day {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

function dayOf(text: string): Day | null {
  const [, year, month, day] = (FORM.exec(text) ?? []).map(Number);
  if (year === undefined || month === undefined || day === undefined) return null;
  return month >= 1 && month <= 12 && day >= 1 && day <= daysIn(year, month) ? { year, month, day } : null;
}

function daysIn(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

/** Days on a line without gaps; not a number for what is no date, which then compares as false with everything. */
export function dayNumber(text: string): number {
  const date = dayOf(text);
  if (date === null) return Number.NaN;
  // Years that begin in March end with the day that may be missing.
  const late = date.month > 2;
  const year = late ? date.year : date.year - 1;
  const month = late ? date.month - 3 : date.month + 9;
  const leaps = Math.floor(year / 4) - Math.floor(year / 100) + Math.floor(year / 400);
  return year * 365 + leaps + Math.floor((month * 153 + 2) / 5) + date.day;
}

/** The day number of the same day `months` later, or of the last day of a month that is too short. */
export function monthsLater(text: string, months: number): number {
  const date = dayOf(text);
  if (date === null) return Number.NaN;
  const all = date.year * 12 + date.month - 1 + months;
  const year = Math.floor(all / 12);
  const month = (all % 12) + 1;
  const day = Math.min(date.day, daysIn(year, month));
  const two = (n: number): string => String(n).padStart(2, '0');
  return dayNumber(`${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`);
}

/** The last day number on which a packing may be used: with an exclusive rule the day before it falls due. */
export function lastDay({ interval, boundary }: RepackRule, packedOn: string): number {
  return dueDay(interval, packedOn) - (boundary === 'exclusive' ? 1 : 0);
}

/** The day number on which a repack falls due. */
export function dueDay(interval: { readonly days: number } | { readonly months: number }, packedOn: string): number {
  return 'days' in interval ? dayNumber(packedOn) + interval.days : monthsLater(packedOn, interval.months);
}
