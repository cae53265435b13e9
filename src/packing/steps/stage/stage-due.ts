/** Which stage is to be done next, what must be put right before it, and which hold stands behind it. */
import type { Procedure, Stage } from '../../../domain/procedure';
import { firstClosingStage, itemsExpectedBefore } from '../../../domain/procedure';
import type { PackState } from '../../state/pack-state';
import { isReleased, workOf } from '../../state/pack-state';
import type { Task } from '../../state/task';
import { countBeforeClosingDue } from '../tools/tools-due';
import { faultBefore, isStageDone } from './kinds';

/** The first stage that is not done, or the first hold that is not released; null behind the last of them. */
export function stageOrHoldDue(procedure: Procedure, state: PackState): Task | null {
  for (const stage of procedure.stages) {
    if (!isStageDone(stage, workOf(state, stage.id))) return stageDue(procedure, state, stage);
    if (stage.hold !== null && !isReleased(state, stage.hold.id)) {
      return { kind: 'hold', procedure, stage, hold: stage.hold, final: false };
    }
  }
  return null;
}

function stageDue(procedure: Procedure, state: PackState, stage: Stage): Task {
  const fault = faultBefore(stage, state);
  if (fault !== null) return { kind: 'blocked', checks: [fault] };
  const isClosing = stage.id === firstClosingStage(procedure)?.id;
  return (
    restoreDue(procedure, state, stage) ??
    (isClosing ? countBeforeClosingDue(procedure, state) : null) ?? { kind: 'stage', procedure, stage }
  );
}

/** The first item that lies otherwise than it must before this stage, or at the end; what must come out goes first. */
export function restoreDue(procedure: Procedure, state: PackState, before: Stage | null): Task | null {
  const expected = new Set(itemsExpectedBefore(procedure, before?.number ?? procedure.stages.length + 1));
  const out = procedure.temporaryItems.find((item) => state.itemsIn.has(item.id) && !expected.has(item.id));
  if (out !== undefined) return { kind: 'restore', procedure, item: out, direction: 'out', before };
  const back = procedure.temporaryItems.find((item) => !state.itemsIn.has(item.id) && expected.has(item.id));
  return back === undefined ? null : { kind: 'restore', procedure, item: back, direction: 'in', before };
}
