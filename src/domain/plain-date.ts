/** Calendar dates without time or zone, as `YYYY-MM-DD` (ISO 8601), and the arithmetic that due dates need. */
import type { Flavour } from './flavour';
import { assert } from './assert';
import type { Result } from './result';
import { ok, refused } from './result';

/** A date that has passed `parsePlainDate`, or was taken from an `Instant`. */
export type PlainDate = Flavour<string, 'PlainDate'>;

const FORM = /^(\d{4})-(\d{2})-(\d{2})$/;
const MS_PER_DAY = 86_400_000;
/** Nothing on a packing table is older; an earlier year is a slip of the pen such as 0026 for 2026. */
const FIRST_YEAR = 1900;

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

interface Parts {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  readonly day: number;
}

function daysInMonth(year: number, month: number): number {
  return new Date(Date.UTC(year, month, 0)).getUTCDate();
}

function partsOf(text: string): Parts | null {
  const match = FORM.exec(text);
  if (match === null) return null;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  if (year < FIRST_YEAR || month < 1 || month > 12) return null;
  return day < 1 || day > daysInMonth(year, month) ? null : { year, month, day };
}

function checkedParts(date: PlainDate): Parts {
  const parts = partsOf(date);
  assert(parts !== null, `"${date}" is a calendar date`);
  return parts;
}

/** Days since 1970-01-01. UTC has no daylight saving, so every day has the same length. */
function dayNumber(date: PlainDate): number {
  const { year, month, day } = checkedParts(date);
  return Date.UTC(year, month - 1, day) / MS_PER_DAY;
}

function makePlainDate({ year, month, day }: Parts): PlainDate {
  assert(year >= FIRST_YEAR && year <= 9999, `year ${String(year)} has four digits and is not before 1900`);
  return `${String(year)}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
}

/** Reads a real calendar date in the strict form `YYYY-MM-DD`, year 1900 to 9999. */
export function parsePlainDate(text: string): Result<PlainDate, 'bad-date'> {
  if (partsOf(text) !== null) return ok(text);
  return refused('bad-date', `"${text}" is not a calendar date. Write year, month and day like 2026-11-25.`);
}

/** The date `days` later; negative goes back. */
export function addDays(date: PlainDate, days: number): PlainDate {
  assert(Number.isInteger(days), 'days are whole');
  const moved = new Date((dayNumber(date) + days) * MS_PER_DAY);
  return makePlainDate({ year: moved.getUTCFullYear(), month: moved.getUTCMonth() + 1, day: moved.getUTCDate() });
}

/** The same day `months` later; where that month is too short, its last day (31 August + 6 = 28 or 29 February). */
export function addMonths(date: PlainDate, months: number): PlainDate {
  assert(Number.isInteger(months), 'months are whole');
  const parts = checkedParts(date);
  const index = parts.year * 12 + (parts.month - 1) + months;
  const year = Math.floor(index / 12);
  const month = index - year * 12 + 1;
  return makePlainDate({ year, month, day: Math.min(parts.day, daysInMonth(year, month)) });
}

/** The same day `years` later; 29 February becomes 28 February where there is none. */
export function addYears(date: PlainDate, years: number): PlainDate {
  return addMonths(date, years * 12);
}

/** Below zero when `a` is earlier, above when later, zero when they are the same day. */
export function compareDates(a: PlainDate, b: PlainDate): number {
  return dayNumber(a) - dayNumber(b);
}

/** "25 November 2026": the month as a word, so that nobody can swap day and month. */
export function sayDate(date: PlainDate): string {
  const { year, month, day } = checkedParts(date);
  const name = MONTHS[month - 1];
  assert(name !== undefined, 'months run from 1 to 12');
  return `${String(day)} ${name} ${String(year)}`;
}
