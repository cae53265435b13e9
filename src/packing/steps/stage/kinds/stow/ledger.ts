/** The running account of a stowing stage: how many are made, where the next one lies, and the line that is left. */
import { canEndWith } from '../../../../../domain/stow/plan-check';
import type { Procedure } from '../../../../../domain/procedure';
import type { StowPlan } from '../../../../../domain/stow/stow-plan';
import {
  isUntil,
  leastStows,
  lineLeft,
  lineUsed,
  loopOfStow,
  nextSide,
  remainderBand,
  sideOfStow,
  statedBand,
} from '../../../../../domain/stow/stow-plan';
import type { StowLedgerView } from '../../../../machine/view';
import type { PackState } from '../../../../state/pack-state';
import { workOf } from '../../../../state/pack-state';
import type { StowStage } from './line-on-hand';
import { lineAtStart } from './line-on-hand';

/** On which loops the stows lie, where the plan says so. */
function loopsOf(plan: StowPlan, next: number | null): Pick<StowLedgerView, 'loops' | 'nextLoop'> {
  const loops = Array.from({ length: plan.stows }, (_, index) => loopOfStow(plan, index + 1));
  const known = loops.filter((loop) => loop !== null);
  if (known.length < loops.length) return {};
  const nextLoop = next === null ? null : loopOfStow(plan, next);
  return { loops: known, ...(nextLoop === null ? {} : { nextLoop }) };
}

/** Whether the stage may end now: a fixed number is made, or what is left can be what is wanted. */
export function mayEnd(state: PackState, stage: StowStage): boolean {
  const { plan } = stage;
  const done = workOf(state, stage.id).stows;
  return done >= leastStows(plan) && canEndWith(plan, lineAtStart(state, stage), done);
}

/** The running account of a stowing stage. */
export function stowLedger(state: PackState, stage: StowStage): StowLedgerView {
  const { plan } = stage;
  const done = workOf(state, stage.id).stows;
  const start = lineAtStart(state, stage);
  const side = nextSide(plan, done);
  return {
    done,
    planned: plan.stows,
    ...(isUntil(plan) ? { least: leastStows(plan), wanted: statedBand(plan) } : {}),
    nextSide: side,
    sides: Array.from({ length: plan.stows }, (_, index) => sideOfStow(plan, index + 1)),
    ...loopsOf(plan, side === null ? null : done + 1),
    ...(plan.viewpoint === undefined ? {} : { viewpoint: plan.viewpoint }),
    ...(plan.leadIn === undefined ? {} : { leadIn: plan.leadIn }),
    bight: plan.bight,
    span: plan.span,
    wraps: plan.wraps,
    lineAtStart: start,
    lineUsed: lineUsed(plan, done),
    lineLeft: lineLeft(start, plan, done),
    remainder: isUntil(plan) ? plan.remainder : remainderBand(plan, start).expected,
  };
}

/** The stowing stage with this id; null when the procedure has none. */
export function stowStageOf(procedure: Procedure, id: string): StowStage | null {
  const stage = procedure.stages.find((one) => one.id === id);
  return stage?.kind === 'stow' ? stage : null;
}
