/** Which speakers the ear is calibrated on, and which are kept for the measurement. */

/** In words, for the data and the reader. */
export const SPLIT_RULE =
  'speakers in the order of their ids: the first, third, fifth and so on calibrate, the others are held out';

/** The ids of the held-out speakers, by the rule. */
export function heldOutOf(speakers: Iterable<string>): ReadonlySet<string> {
  const ids = [...new Set(speakers)].sort();
  return new Set(ids.filter((_, index) => index % 2 === 1));
}
