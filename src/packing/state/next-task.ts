/** What must be done next, from the facts alone. Each step says itself when it is due. */
import { assert } from '../../domain/assert';
import type { CheckLine } from '../../domain/fact';
import type { Loft } from '../../domain/loft';
import { procedureById } from '../../domain/loft';
import type { Hold, Procedure } from '../../domain/procedure';
import { firstClosingStage } from '../../domain/procedure';
import type { ProcedureFault } from '../../domain/procedure-faults';
import { procedureFaults } from '../../domain/procedure-faults';
import { closeUpChecks } from '../steps/close-up/close-up';
import { inspectionDue } from '../steps/inspect/inspection-due';
import { restoreDue, stageOrHoldDue } from '../steps/stage/stage-due';
import { toolOutDue, toolsAndItemsBackDue } from '../steps/tools/tools-due';
import { fileChanged, revisionGone } from '../machine/recheck';
import type { PackState } from './pack-state';
import { hasChanged, procedureOf } from './pack-state';
import type { Task } from './task';

interface Found {
  readonly loft: Loft;
  readonly task: Task;
}

/** A state is never changed once it is folded, and its task is asked for many times while one event is taken. */
const FOUND = new WeakMap<PackState, Found>();

/** The next task. Standing by is no task: it lies over whichever task this is. */
export function nextTask(loft: Loft, state: PackState): Task {
  const known = FOUND.get(state);
  if (known?.loft === loft) return known.task;
  const task = taskOf(loft, state);
  FOUND.set(state, { loft, task });
  return task;
}

function taskOf(loft: Loft, state: PackState): Task {
  if (state.stopped !== null) return { kind: 'stopped', stopped: state.stopped };
  if (state.ended === 'recorded' && state.signed !== null) return { kind: 'recorded', record: state.signed.record };
  if (state.agreed === null || state.checkIn === null) return { kind: 'identify' };
  if (!state.checkIn.passed) return { kind: 'blocked', checks: state.checkIn.checks };
  if (state.recheckFailed !== null) return { kind: 'blocked', checks: state.recheckFailed, again: true };
  const procedure = procedureOf(loft, state);
  const filed = procedureById(loft, state.agreed.procedure);
  if (filed !== null && hasChanged(filed, state.agreed)) {
    return { kind: 'blocked', checks: [fileChanged(state.agreed)], again: true };
  }
  if (procedure === null) return { kind: 'blocked', checks: [revisionGone(state.agreed)] };
  const { finalHold } = procedure;
  const unfit = unfitLines(procedure);
  if (finalHold === undefined || unfit.length > 0) return { kind: 'blocked', checks: unfit };
  return (
    inspectionDue(procedure, state) ??
    toolOutDue(procedure, state) ??
    stageOrHoldDue(procedure, state) ??
    restoreDue(procedure, state, null) ??
    toolsAndItemsBackDue(procedure, state) ??
    closing(procedure, state, finalHold)
  );
}

const UNFIT = new WeakMap<Procedure, readonly CheckLine[]>();

/** Why nobody packs by this procedure. The loft's check says all of it first; one from elsewhere may come here. */
function unfitLines(procedure: Procedure): readonly CheckLine[] {
  const known = UNFIT.get(procedure);
  if (known !== undefined) return known;
  const faults = procedureFaults(procedure).map(faultLine);
  const lines = faults.length > 0 ? faults : closingLines(procedure).filter((line) => !line.passed);
  UNFIT.set(procedure, lines);
  return lines;
}

function faultLine({ stage, reason }: ProcedureFault): CheckLine {
  return { label: stage === null ? 'Procedure' : `Stage ${String(stage.number)}`, passed: false, detail: reason };
}

/** What a procedure must say of its end. */
function closingLines(procedure: Procedure): readonly CheckLine[] {
  const closes = firstClosingStage(procedure) !== null;
  const looks = procedure.finalHold?.inspectorClass === 'final';
  const ask = 'Stop and tag, and ask the lead for a revision that does.';
  return [
    { label: 'Closing', passed: closes, detail: `The procedure does not say which stage closes the container. ${ask}` },
    { label: 'Final inspection', passed: looks, detail: `The procedure names no final inspection. ${ask}` },
  ];
}

function closing(procedure: Procedure, state: PackState, finalHold: Hold): Task {
  const checks = closeUpChecks(procedure, state);
  if (!checks.every((line) => line.passed)) return { kind: 'blocked', checks };
  if (state.signed === null) return { kind: 'sign', procedure, checks };
  if (!state.cardPlaced) return { kind: 'card', procedure, record: state.signed.record };
  const stage = procedure.stages.at(-1);
  assert(stage !== undefined, 'a procedure has stages');
  return { kind: 'hold', procedure, stage, hold: finalHold, final: true };
}
