/** Holds, stow plans and measures: the rules are the domain's, so that the pack refuses what is refused here. */
import type { Procedure } from '../domain/procedure';
import { procedureFaults } from '../domain/procedure-faults';
import type { Problem } from './refusal';

/** Everything that is wrong with the holds, stow plans and measures of a procedure, with its place in the file. */
export function checkStowing(procedure: Procedure): readonly Problem[] {
  return procedureFaults(procedure).map(({ stage, field, fault, reason }) => ({
    path: stage === null ? field : ['stages', stage.number - 1, ...field],
    fault,
    reason,
  }));
}
