/** A broken assumption is a defect of this package and never of a grammar: it stops at once and says which. */

/** Throws when `condition` does not hold; `assumption` says what was believed. */
export function assert(condition: boolean, assumption: string): asserts condition {
  if (!condition) throw new Error(`Broken assumption: ${assumption}`);
}
