/** Calendar dates without time or zone, as `YYYY-MM-DD` (ISO 8601). Filled in by the date functions below. */

/** A date that has passed `parsePlainDate`, or was taken from an `Instant`. */
export type PlainDate = string;
