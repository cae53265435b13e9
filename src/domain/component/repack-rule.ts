/** Repack intervals as data: rule sets differ by country, service and fibre, so none is a constant. */
import type { PlainDate } from '../plain-date';
import { addDays, addMonths, compareDates } from '../plain-date';

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

/** Packing date plus the interval. Six months are not 180 days: months go by the calendar. */
export function dueDate(rule: RepackRule, packedOn: PlainDate): PlainDate {
  const { interval } = rule;
  return 'days' in interval ? addDays(packedOn, interval.days) : addMonths(packedOn, interval.months);
}

/** The last day on which the packing still counts: the due date itself, or the day before, as the rule says. */
export function lastGoodDay(rule: RepackRule, packedOn: PlainDate): PlainDate {
  const due = dueDate(rule, packedOn);
  return rule.boundary === 'inclusive' ? due : addDays(due, -1);
}

/** The first day on which the packing no longer counts: "overdue since". */
export function firstOverdueDay(rule: RepackRule, packedOn: PlainDate): PlainDate {
  return addDays(lastGoodDay(rule, packedOn), 1);
}

/** True from the packing day to the last good day. A packing that lies ahead of `on` does not count. */
export function isInDate(rule: RepackRule, packedOn: PlainDate, on: PlainDate): boolean {
  return compareDates(packedOn, on) <= 0 && compareDates(on, lastGoodDay(rule, packedOn)) <= 0;
}
