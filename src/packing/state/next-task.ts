/** What must be done next, from the facts alone. */
import { assert } from '../../domain/assert';
import type { ComponentKind } from '../../domain/component';
import type { CheckLine } from '../../domain/fact';
import type { LogRecord } from '../../domain/log-record';
import type { Loft } from '../../domain/loft';
import { procedureById } from '../../domain/loft';
import type { Hold, Procedure, Stage, TemporaryItem, ToolLine } from '../../domain/procedure';
import { firstClosingStage, itemsExpectedBefore } from '../../domain/procedure';
import type { ProcedureFault } from '../../domain/procedure-faults';
import { procedureFaults } from '../../domain/procedure-faults';
import { closeUpChecks } from '../steps/close-up/close-up';
import { lineFault } from '../steps/stage/line-on-hand';
import { fileChanged, revisionGone } from '../machine/recheck';
import type { PackState, StoppedBody } from './pack-state';
import { hasChanged, isReleased, isStageDone, procedureOf, workOf } from './pack-state';

export type Task =
  | { readonly kind: 'identify' }
  /** Nothing talks past it: the pack can only be stopped and tagged. */
  | {
      readonly kind: 'blocked';
      readonly checks: readonly CheckLine[];
      /** These checks are made again when the files change, or somebody takes over. */
      readonly again?: true;
    }
  /** The packer looks over this component before anything is packed. */
  | {
      readonly kind: 'inspect';
      readonly procedure: Procedure;
      readonly component: ComponentKind;
      readonly serial: string;
      readonly number: number;
      readonly of: number;
    }
  | { readonly kind: 'toolOut'; readonly procedure: Procedure; readonly tool: ToolLine; readonly index: number }
  /** A temporary item lies otherwise than stage `before` needs it (null: than the end needs it). */
  | {
      readonly kind: 'restore';
      readonly procedure: Procedure;
      readonly item: TemporaryItem;
      readonly direction: 'in' | 'out';
      readonly before: Stage | null;
    }
  | { readonly kind: 'stage'; readonly procedure: Procedure; readonly stage: Stage }
  /** The final hold is said to follow the last stage; only `final` tells it from that stage's own. */
  | {
      readonly kind: 'hold';
      readonly procedure: Procedure;
      readonly stage: Stage;
      readonly hold: Hold;
      readonly final: boolean;
    }
  /** One line of tools, before the container is closed over everything. */
  | { readonly kind: 'toolCheck'; readonly procedure: Procedure; readonly tool: ToolLine; readonly index: number }
  | {
      readonly kind: 'items';
      readonly procedure: Procedure;
      readonly before: 'closing' | 'signature';
      /** To be seen in the tray. */
      readonly out: readonly TemporaryItem[];
      readonly inside: readonly TemporaryItem[];
    }
  | { readonly kind: 'toolBack'; readonly procedure: Procedure; readonly tool: ToolLine; readonly index: number }
  | { readonly kind: 'sign'; readonly procedure: Procedure; readonly checks: readonly CheckLine[] }
  /** Signed: the data card goes into its pocket. */
  | { readonly kind: 'card'; readonly procedure: Procedure; readonly record: LogRecord }
  | { readonly kind: 'recorded'; readonly record: LogRecord }
  | { readonly kind: 'stopped'; readonly stopped: StoppedBody };

/** The next task. Standing by is no task: it lies over whichever task this is. */
export function nextTask(loft: Loft, state: PackState): Task {
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
  const faults = procedureFaults(procedure);
  if (faults.length > 0) return { kind: 'blocked', checks: faults.map(faultLine) };
  const { finalHold } = procedure;
  const unfit = closingLines(procedure).filter((line) => !line.passed);
  if (finalHold === undefined || unfit.length > 0) return { kind: 'blocked', checks: unfit };
  return (
    inspection(procedure, state) ??
    toolOut(procedure, state) ??
    stageOrHold(procedure, state) ??
    closing(procedure, state, finalHold)
  );
}

/** Two tasks are the same step when this agrees; then the step need not be read out again. */
export function taskKey(task: Task): string {
  switch (task.kind) {
    case 'toolOut':
    case 'toolCheck':
    case 'toolBack':
      return `${task.kind}:${task.tool.id}`;
    case 'inspect':
      return `inspect:${task.component}`;
    case 'items':
      return `items:${task.before}`;
    case 'restore':
      return `restore:${task.direction}:${task.item.id}`;
    case 'stage':
      return `stage:${task.stage.id}`;
    case 'hold':
      return `hold:${task.hold.id}`;
    default:
      return task.kind;
  }
}

/** The loft's check refuses such a procedure; one that came here all the same is not packed by. */
function faultLine({ stage, reason }: ProcedureFault): CheckLine {
  return { label: stage === null ? 'Procedure' : `Stage ${String(stage.number)}`, passed: false, detail: reason };
}

/** In the order in which parts are taken up: what is packed first, then what it goes into. */
const INSPECTION_ORDER: readonly ComponentKind[] = ['canopy', 'bag', 'container'];

/**
 * The next component to be looked over, or why nothing is packed. Packs of earlier versions, which asked for no
 * inspection, have their tools out by now.
 */
function inspection(procedure: Procedure, { inspected, identified, toolsOut }: PackState): Task | null {
  const found = [...inspected].flatMap(([kind, { result, finding }]) =>
    result === 'good' ? [] : [foundLine(kind, finding ?? 'Not good')],
  );
  if (found.length > 0) return { kind: 'blocked', checks: found };
  if (toolsOut.size > 0) return null;
  const parts = INSPECTION_ORDER.filter((kind) => identified.has(kind));
  const index = parts.findIndex((kind) => inspected.get(kind)?.serial !== identified.get(kind));
  const component = parts[index];
  if (component === undefined) return null;
  const serial = identified.get(component) ?? '';
  return { kind: 'inspect', procedure, component, serial, number: index + 1, of: parts.length };
}

function foundLine(kind: ComponentKind, finding: string): CheckLine {
  const label = `Inspection of the ${kind}`;
  return { label, passed: false, detail: `${finding}. Nothing is packed. Keep the ${kind} apart.` };
}

/** What a procedure must say of its end; lint says it first, so only a file from elsewhere lacks it. */
function closingLines(procedure: Procedure): readonly CheckLine[] {
  const closes = firstClosingStage(procedure) !== null;
  const looks = procedure.finalHold?.inspectorClass === 'final';
  const ask = 'Stop and tag, and ask the lead for a revision that does.';
  return [
    { label: 'Closing', passed: closes, detail: `The procedure does not say which stage closes the container. ${ask}` },
    { label: 'Final inspection', passed: looks, detail: `The procedure names no final inspection. ${ask}` },
  ];
}

function toolOut(procedure: Procedure, state: PackState): Task | null {
  const index = procedure.tools.findIndex((tool) => !state.toolsOut.has(tool.id));
  const tool = procedure.tools[index];
  return tool === undefined ? null : { kind: 'toolOut', procedure, tool, index };
}

function stageOrHold(procedure: Procedure, state: PackState): Task | null {
  const closing = firstClosingStage(procedure);
  for (const stage of procedure.stages) {
    if (!isStageDone(stage, workOf(state, stage.id))) {
      const fault = stage.kind === 'stow' ? lineFault(state, stage) : null;
      if (fault !== null) return { kind: 'blocked', checks: [fault] };
      const owed = restore(procedure, state, stage);
      if (owed !== null) return owed;
      const count = stage.id === closing?.id ? countBeforeClosing(procedure, state) : null;
      return count ?? { kind: 'stage', procedure, stage };
    }
    if (stage.hold !== null && !isReleased(state, stage.hold.id)) {
      return { kind: 'hold', procedure, stage, hold: stage.hold, final: false };
    }
  }
  return null;
}

/** The first item that lies otherwise than it must; what must come out goes first. */
function restore(procedure: Procedure, state: PackState, before: Stage | null): Task | null {
  const expected = new Set(itemsExpectedBefore(procedure, before?.number ?? procedure.stages.length + 1));
  const out = procedure.temporaryItems.find((item) => state.itemsIn.has(item.id) && !expected.has(item.id));
  if (out !== undefined) return { kind: 'restore', procedure, item: out, direction: 'out', before };
  const back = procedure.temporaryItems.find((item) => !state.itemsIn.has(item.id) && expected.has(item.id));
  return back === undefined ? null : { kind: 'restore', procedure, item: back, direction: 'in', before };
}

function items(procedure: Procedure, state: PackState, before: 'closing' | 'signature'): Task | null {
  const { temporaryItems } = procedure;
  if (temporaryItems.length === 0 || state.itemsAccounted.has(before)) return null;
  const inside = temporaryItems.filter(({ id }) => state.itemsIn.has(id));
  const out = temporaryItems.filter(({ id }) => !state.itemsIn.has(id));
  return { kind: 'items', procedure, before, out, inside };
}

/** Nothing is closed over a tool or an item that nobody has seen. */
function countBeforeClosing(procedure: Procedure, state: PackState): Task | null {
  const index = procedure.tools.findIndex((tool) => !state.toolsAccounted.has(tool.id));
  const tool = procedure.tools[index];
  if (tool !== undefined) return { kind: 'toolCheck', procedure, tool, index };
  return items(procedure, state, 'closing');
}

function closing(procedure: Procedure, state: PackState, finalHold: Hold): Task {
  const owed = restore(procedure, state, null);
  if (owed !== null) return owed;
  const index = procedure.tools.findIndex((tool) => !state.toolsBack.has(tool.id));
  const tool = procedure.tools[index];
  if (tool !== undefined) return { kind: 'toolBack', procedure, tool, index };
  const tray = items(procedure, state, 'signature');
  if (tray !== null) return tray;
  const checks = closeUpChecks(procedure, state);
  if (!checks.every((line) => line.passed)) return { kind: 'blocked', checks };
  if (state.signed === null) return { kind: 'sign', procedure, checks };
  if (!state.cardPlaced) return { kind: 'card', procedure, record: state.signed.record };
  const stage = procedure.stages.at(-1);
  assert(stage !== undefined, 'a procedure has stages');
  return { kind: 'hold', procedure, stage, hold: finalHold, final: true };
}
