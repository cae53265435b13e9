/** Stow plans and measures: the numbers of a procedure must agree with one another before anybody packs by them. */
import { withinBand } from '../domain/measure';
import type { MeasureTarget, Procedure, Stage } from '../domain/procedure';
import { stageOf } from '../domain/procedure';
import type { Quantity } from '../domain/quantity';
import { add, compareQuantities, makeQuantity, subtract } from '../domain/quantity';
import type { StowPlan } from '../domain/stow-plan';
import { checkPlan, lineUsed } from '../domain/stow-plan';
import type { Fault, Problem } from './refusal';

function at(stage: Stage, field: readonly string[], fault: Fault, reason: string): Problem {
  return { path: ['stages', stage.number - 1, ...field], fault, reason };
}

interface Band {
  readonly lowest: Quantity;
  readonly highest: Quantity;
}

/** What a measuring stage lets through at most; null when its target is itself wrong. */
function bandOf(procedure: Procedure, target: MeasureTarget): Band | null {
  if (target.from === 'nominal') {
    return { lowest: subtract(target.nominal, target.under), highest: add(target.nominal, target.over) };
  }
  const stow = stageOf(procedure, target.stowStage);
  if (stow?.kind !== 'stow') return null;
  const { remainder, under, over } = stow.plan;
  return { lowest: subtract(remainder, under), highest: add(remainder, over) };
}

/** A plan whose line comes from a measure must be possible for every value that the measure lets through. */
function checkLineFrom(procedure: Procedure, stage: Stage, plan: StowPlan): readonly Problem[] {
  if (plan.lineFrom === null) return [];
  const field = ['plan', 'lineFrom'];
  const source = stageOf(procedure, plan.lineFrom);
  if (source?.kind !== 'measure') {
    return [
      at(stage, field, 'unknown-reference', `"${plan.lineFrom}" is no measuring stage. Name one, or leave this out.`),
    ];
  }
  if (source.number >= stage.number) {
    return [
      at(stage, field, 'later-stage', `"${plan.lineFrom}" comes later. The line must be measured before it is stowed.`),
    ];
  }
  const band = bandOf(procedure, source.target);
  if (band === null) return [];
  if (!withinBand(plan.line, band.lowest, band.highest)) {
    const reason = `The plan starts from ${makeQuantity(plan.line)}, but "${plan.lineFrom}" measures something else. Make them agree.`;
    return [at(stage, ['plan', 'line'], 'line-disagrees', reason)];
  }
  if (compareQuantities(band.lowest, lineUsed(plan, plan.stows)) < 0) {
    const reason = `With ${makeQuantity(band.lowest)}, which "${plan.lineFrom}" lets through, there is not enough line for the stows.`;
    return [at(stage, ['plan'], 'bad-plan', reason)];
  }
  return [];
}

function checkTarget(procedure: Procedure, stage: Stage, target: MeasureTarget): readonly Problem[] {
  if (target.from === 'nominal') {
    if (target.nominal.value > 0 && compareQuantities(target.under, target.nominal) <= 0) return [];
    return [at(stage, ['nominal'], 'bad-quantity', 'A nominal must be above zero, and "under" no larger than it.')];
  }
  const stow = stageOf(procedure, target.stowStage);
  if (stow?.kind !== 'stow') {
    const reason = `"${target.stowStage}" is no stowing stage, so it leaves no remainder. Name one that is.`;
    return [at(stage, ['remainderOf'], 'unknown-reference', reason)];
  }
  if (stow.number < stage.number) return [];
  const reason = `"${target.stowStage}" comes later. A remainder is measured after its stows.`;
  return [at(stage, ['remainderOf'], 'later-stage', reason)];
}

/** Everything that is wrong with the stow plans and measures of a procedure. */
export function checkStowing(procedure: Procedure): readonly Problem[] {
  return procedure.stages.flatMap((stage) => {
    if (stage.kind === 'measure') return checkTarget(procedure, stage, stage.target);
    if (stage.kind !== 'stow') return [];
    const sound = checkPlan(stage.plan);
    if (!sound.ok) return [at(stage, ['plan'], 'bad-plan', sound.detail)];
    return checkLineFrom(procedure, stage, stage.plan);
  });
}
