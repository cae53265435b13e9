/** A broken assumption is a defect of ours, never of the rigger: it stops at once and says which. */

/** Throws when `condition` does not hold; `assumption` says what was believed. */
export function assert(condition: boolean, assumption: string): asserts condition {
  if (!condition) throw new Error(`Broken assumption: ${assumption}`);
}

/** For the end of an exhaustive switch: the compiler proves that it is never reached. */
export function unreachable(value: never): never {
  throw new Error(`Broken assumption: unexpected ${JSON.stringify(value)}`);
}
