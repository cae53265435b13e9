/** Finds names that are used twice where each must be unique. */
import type { Fault, Problem } from './refusal';

export interface Named {
  readonly name: string;
  readonly path: readonly PropertyKey[];
}

/** One problem for each repetition, at the place of the repetition. `what` is the noun for the sentence. */
export function findDuplicates(
  entries: readonly Named[],
  what: string,
  fault: Fault = 'duplicate-id',
): readonly Problem[] {
  const seen = new Set<string>();
  const problems: Problem[] = [];
  for (const { name, path } of entries) {
    if (seen.has(name)) problems.push({ path, fault, reason: `${what} "${name}" appears twice. Each must be unique.` });
    seen.add(name);
  }
  return problems;
}
