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

/** On which loops the stows lie, in order; null where the plan does not say. */
function loopsOf(plan: StowPlan): readonly number[] | null {
  const loops = Array.from({ length: plan.stows }, (_, index) => loopOfStow(plan, index + 1));
  const known = loops.filter((loop) => loop !== null);
  return known.length < loops.length ? null : known;
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
    least: isUntil(plan) ? leastStows(plan) : null,
    wanted: isUntil(plan) ? statedBand(plan) : null,
    nextSide: side,
    sides: Array.from({ length: plan.stows }, (_, index) => sideOfStow(plan, index + 1)),
    nextLoop: side === null ? null : loopOfStow(plan, done + 1),
    loops: loopsOf(plan),
    viewpoint: plan.viewpoint ?? null,
    leadIn: plan.leadIn ?? null,
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
