/** The end of a procedure: which stage closes the container, over what, and who looks last. */
import type { Hold, Procedure } from '../domain/procedure';
import { BACK_TO_SIGNATURE, firstClosingStage, holdsOf, itemsExpectedBefore, stageOf } from '../domain/procedure';
import type { Named } from './duplicates';
import { findDuplicates } from './duplicates';
import type { Problem } from './refusal';

/** Where a return leads when only the card and the signature are made anew: no stage may have this name. */
function nameProblems(procedure: Procedure): readonly Problem[] {
  return procedure.stages
    .filter(({ id }) => id === BACK_TO_SIGNATURE)
    .map(({ number }) => ({
      path: ['stages', number - 1, 'id'],
      fault: 'reserved-name',
      reason: `A stage cannot be called "${BACK_TO_SIGNATURE}": that is where a final return can lead. Rename it.`,
    }));
}

/** Everything is counted before the container is closed over it; that needs a stage that closes. */
function closingProblems(procedure: Procedure): readonly Problem[] {
  if (firstClosingStage(procedure) === null) {
    const reason =
      'No stage closes the container, so nobody would know when to count what may be inside. ' +
      'Write "closes: true" at the first stage that closes it.';
    return [{ path: ['stages'], fault: 'no-closing-stage', reason }];
  }
  return procedure.stages
    .filter(({ closes }) => closes === true)
    .flatMap((stage) =>
      itemsExpectedBefore(procedure, stage.number).flatMap((id): readonly Problem[] => {
        const item = procedure.temporaryItems.find((one) => one.id === id);
        // One that is never removed, or not known, is refused as such.
        const comesOut = procedure.stages.some(
          (one) => one.kind === 'remove' && one.item === id && one.number > stage.number,
        );
        if (item === undefined || item.usedToClose === true || !comesOut) return [];
        const reason =
          `The container is closed while "${item.name}" lies inside. Remove it in an earlier stage, or write ` +
          '"usedToClose: true" at the item if the container is closed with it.';
        return [{ path: ['stages', stage.number - 1, 'closes'], fault: 'closed-in', reason }];
      }),
    );
}

function classProblems(procedure: Procedure): readonly Problem[] {
  const between = holdsOf(procedure)
    .filter(({ hold }) => hold.inspectorClass === 'final')
    .map(({ stage }): Problem => ({
      path: ['stages', stage.number - 1, 'hold', 'inspectorClass'],
      fault: 'wrong-class',
      reason: 'A hold between stages cannot be of class final: that one comes after the signature, as "finalHold".',
    }));
  if (procedure.finalHold === undefined || procedure.finalHold.inspectorClass === 'final') return between;
  const reason = 'The final hold must be of class final. Write "inspectorClass: final".';
  return [...between, { path: ['finalHold', 'inspectorClass'], fault: 'wrong-class', reason }];
}

function findingProblems(procedure: Procedure, { findings }: Hold): readonly Problem[] {
  const place = ['finalHold', 'findings'];
  const names: readonly Named[] = findings.map(({ id }, index) => ({ name: id, path: [...place, index, 'id'] }));
  const nowhere = findings.flatMap(({ backTo }, index): readonly Problem[] => {
    if (backTo === BACK_TO_SIGNATURE || stageOf(procedure, backTo) !== null) return [];
    const reason = `"${backTo}" is no stage. Name the stage to go back to, or "${BACK_TO_SIGNATURE}".`;
    return [{ path: [...place, index, 'backTo'], fault: 'unknown-reference', reason }];
  });
  return [...findDuplicates(names, 'The finding'), ...nowhere];
}

/** Everything that is wrong with how a procedure ends. */
export function checkClosing(procedure: Procedure): readonly Problem[] {
  return [
    ...nameProblems(procedure),
    ...closingProblems(procedure),
    ...classProblems(procedure),
    ...(procedure.finalHold === undefined ? [] : findingProblems(procedure, procedure.finalHold)),
  ];
}
