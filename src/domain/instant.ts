/** Moments in time. They come in on events; nothing in the core reads a clock (invariant 10). */
import type { Flavour } from './flavour';
import type { PlainDate } from './plain-date';

/** ISO 8601 date and time with offset or Z, for example `2026-11-25T14:03:11.250+01:00`. */
export type Instant = Flavour<string, 'Instant'>;

/** Milliseconds since the Unix epoch. */
export function epochMs(instant: Instant): number {
  return Date.parse(instant);
}

/** The calendar date at the table: the first ten characters, since the offset is the table's own. */
export function dateOf(instant: Instant): PlainDate {
  return instant.slice(0, 10);
}
