/**
 * What must hold between the parts of a procedure before anybody packs by it. The loft's check of the files and the
 * pack itself ask here, so that neither lets through what the other refuses.
 */
import { entryFault } from './enterable';
import type { Band } from './measure';
import { bandAround, withinBand } from './measure';
import { checkPlan, lineWithoutEnd } from './stow/plan-check';
import type { MeasureTarget, Procedure, Stage } from './procedure';
import { holdsOf, stageOf } from './procedure';
import type { Quantity } from './quantity';
import { makeQuantity } from './quantity';
import type { StowPlan } from './stow/stow-plan';
import { statedBand } from './stow/stow-plan';

export interface ProcedureFault {
  /** The stage in question; null for the procedure as a whole. */
  readonly stage: Stage | null;
  /** The field in the file, below the stage or the procedure. */
  readonly field: readonly string[];
  readonly fault:
    | 'bad-plan'
    | 'bad-quantity'
    | 'line-disagrees'
    | 'unknown-reference'
    | 'later-stage'
    | 'never-measured'
    | 'either-or';
  /** What is wrong and what to do. */
  readonly reason: string;
}

type StowStage = Extract<Stage, { kind: 'stow' }>;
type MeasureStage = Extract<Stage, { kind: 'measure' }>;

/** What a measuring stage lets through at most; null when its target is itself wrong. */
function bandOf(procedure: Procedure, target: MeasureTarget): Band | null {
  if (target.from === 'nominal') return bandAround(target.nominal, target);
  const stow = stageOf(procedure, target.stowStage);
  return stow?.kind === 'stow' ? statedBand(stow.plan) : null;
}

/** The line with which the stage may begin, or what is wrong with where the plan takes it from. */
function lineBand(procedure: Procedure, stage: StowStage): { readonly band: Band | null } | ProcedureFault {
  const { line, lineFrom } = stage.plan;
  if (lineFrom === null) return { band: { lowest: line, highest: line } };
  const field = ['plan', 'lineFrom'];
  const source = stageOf(procedure, lineFrom);
  if (source?.kind !== 'measure') {
    const reason = `"${lineFrom}" is no measuring stage. Name one, or leave this out.`;
    return { stage, field, fault: 'unknown-reference', reason };
  }
  if (source.number >= stage.number) {
    const reason = `"${lineFrom}" comes later. The line must be measured before it is stowed.`;
    return { stage, field, fault: 'later-stage', reason };
  }
  const band = bandOf(procedure, source.target);
  // A measure whose own target is wrong is named for that.
  if (band === null || withinBand(line, band)) return { band };
  const reason = `The plan starts from ${makeQuantity(line)}, but "${lineFrom}" measures something else. Make them agree.`;
  return { stage, field: ['plan', 'line'], fault: 'line-disagrees', reason };
}

/** The sentence for a line with which the stage cannot end as the plan states. */
function reachReason({ lineFrom, remainder, under, over, perStow }: StowPlan, stuck: Quantity): string {
  const source = lineFrom === null ? 'the plan starts from' : `"${lineFrom}" lets through`;
  const room = perStow === undefined ? '' : ', with room for what hands do to the stows (root of the sum of squares)';
  return `With ${makeQuantity(stuck)}, which ${source}, the stows do not leave ${makeQuantity(remainder)}, ${makeQuantity(under)} under to ${makeQuantity(over)} over${room}. Allow more, or let less through before.`;
}

/**
 * Unmeasured, a remainder is a hope: it must be measured before anything is stowed again, as nobody can tell from the
 * file whether the next stows lie on the same line.
 */
function isMeasured(procedure: Procedure, stow: StowStage): boolean {
  for (const stage of procedure.stages.slice(stow.number)) {
    if (stage.kind === 'stow') return false;
    if (stage.kind === 'measure' && stage.target.from === 'remainder' && stage.target.stowStage === stow.id)
      return true;
  }
  return false;
}

/** Whether some measure names a stage that leaves no remainder: it is told so, and whom it misses is not blamed too. */
function hasStrayMeasure(procedure: Procedure): boolean {
  return procedure.stages.some((stage) => stage.kind === 'measure' && referenceFaults(procedure, stage).length > 0);
}

function stowFaults(procedure: Procedure, stage: StowStage): readonly ProcedureFault[] {
  const sound = checkPlan(stage.plan);
  if (!sound.ok) return [{ stage, field: ['plan'], fault: 'bad-plan', reason: sound.detail }];
  if (!hasStrayMeasure(procedure) && !isMeasured(procedure, stage)) {
    const reason =
      'Nobody measures what these stows leave. Add a measure stage with "remainderOf" before anything else is stowed.';
    return [{ stage, field: ['id'], fault: 'never-measured', reason }];
  }
  const from = lineBand(procedure, stage);
  if (!('band' in from)) return [from];
  const stuck = from.band === null ? null : lineWithoutEnd(stage.plan, from.band);
  return stuck === null ? [] : [{ stage, field: ['plan'], fault: 'bad-plan', reason: reachReason(stage.plan, stuck) }];
}

function nominalFault(target: Extract<MeasureTarget, { from: 'nominal' }>): string | null {
  const { nominal } = target;
  const { lowest, highest } = bandAround(nominal, target);
  if (lowest.value <= 0)
    return 'A nominal must be above zero, and "under" smaller than it: no line at all is no length.';
  const fault = entryFault(nominal) ?? entryFault({ ...highest, value: Math.ceil(highest.value) });
  return fault === null ? null : `${makeQuantity(nominal)} cannot be entered here: ${fault}.`;
}

function measureFaults(procedure: Procedure, stage: MeasureStage): readonly ProcedureFault[] {
  const { target } = stage;
  if (target.from === 'remainder') return referenceFaults(procedure, stage);
  const reason = nominalFault(target);
  return reason === null ? [] : [{ stage, field: ['nominal'], fault: 'bad-quantity', reason }];
}

/** A remainder is that of an earlier stowing stage. */
function referenceFaults(procedure: Procedure, stage: MeasureStage): readonly ProcedureFault[] {
  const { target } = stage;
  if (target.from === 'nominal') return [];
  const field = ['remainderOf'];
  const stow = stageOf(procedure, target.stowStage);
  if (stow?.kind !== 'stow') {
    const reason = `"${target.stowStage}" is no stowing stage, so it leaves no remainder. Name one that is.`;
    return [{ stage, field, fault: 'unknown-reference', reason }];
  }
  if (stow.number < stage.number) return [];
  const reason = `"${target.stowStage}" comes later. A remainder is measured after its stows.`;
  return [{ stage, field, fault: 'later-stage', reason }];
}

/** A procedure in which nobody else looks says so, and why; one that has holds does not say that it has none. */
function holdFaults(procedure: Procedure): readonly ProcedureFault[] {
  const holds = holdsOf(procedure).length > 0;
  const reasonGiven = (procedure.noHolds ?? null) !== null;
  if (holds !== reasonGiven) return [];
  const reason = holds
    ? '"noHolds" gives a reason for having no hold, but there are holds. Take one of the two out.'
    : 'Nobody inspects anything: there is no hold. Add one, or say in "noHolds" why this procedure has none.';
  return [{ stage: null, field: holds ? ['noHolds'] : ['stages'], fault: 'either-or', reason }];
}

function search(procedure: Procedure): readonly ProcedureFault[] {
  return [
    ...holdFaults(procedure),
    ...procedure.stages.flatMap((stage) => {
      if (stage.kind === 'measure') return measureFaults(procedure, stage);
      return stage.kind === 'stow' ? stowFaults(procedure, stage) : [];
    }),
  ];
}

const found = new WeakMap<Procedure, readonly ProcedureFault[]>();

/** Everything that is wrong with holds, stow plans and measures; looked for once for each procedure object. */
export function procedureFaults(procedure: Procedure): readonly ProcedureFault[] {
  const known = found.get(procedure);
  if (known !== undefined) return known;
  const faults = search(procedure);
  found.set(procedure, faults);
  return faults;
}
