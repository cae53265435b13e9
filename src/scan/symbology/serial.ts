/** A component's plain serial, as the loft's own linear labels carry it. */

/**
 * Groups of capital letters and digits joined by hyphens: at least two, so that no bare number passes, and none
 * longer than 12, so that no badge with one character misread as a hyphen passes.
 */
const SERIAL = /^[A-Z0-9]{1,12}(-[A-Z0-9]{1,12})+$/;
const SHORTEST = 5;
const LONGEST = 24;

/** True for a serial such as `QC-204-118`. */
export function isPlainSerial(text: string): boolean {
  return text.length >= SHORTEST && text.length <= LONGEST && SERIAL.test(text);
}
