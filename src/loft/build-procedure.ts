/** From the written form of a procedure to the noun: stages get their numbers, measures their target. */
import type { MeasureTarget, Procedure, Stage } from '../domain/procedure';
import type { StowPlan } from '../domain/stow/stow-plan';
import type { WrittenProcedure, WrittenStage } from './procedure-schema';
import type { Problem } from './refusal';

type WrittenMeasure = Extract<WrittenStage, { readonly kind: 'measure' }>;

/** Null when neither or both of the two forms are given. */
function targetOf({ nominal, under, over, remainderOf }: WrittenMeasure): MeasureTarget | null {
  if (nominal !== null && under !== null && over !== null && remainderOf === null) {
    return { from: 'nominal', nominal, under, over };
  }
  if (remainderOf !== null && nominal === null && under === null && over === null) {
    return { from: 'remainder', stowStage: remainderOf };
  }
  return null;
}

/** Every measuring stage that has neither a nominal with its tolerance nor a remainder, or has both. */
export function measureProblems(written: WrittenProcedure): readonly Problem[] {
  return written.stages.flatMap((stage, index) => {
    if (stage.kind !== 'measure' || targetOf(stage) !== null) return [];
    const reason =
      'A measure needs either "nominal", "under" and "over", or "remainderOf" alone. Write one of the two.';
    return [{ path: ['stages', index], fault: 'either-or', reason } as const];
  });
}

/** The fewest stows are stated apart only where their number is free. */
function buildPlan({ stows, ...rest }: Extract<WrittenStage, { readonly kind: 'stow' }>['plan']): StowPlan {
  return typeof stows === 'number' ? { stows, ...rest } : { stows: stows.most, least: stows.least, ...rest };
}

function buildStage(stage: WrittenStage, number: number): Stage | null {
  if (stage.kind === 'stow') return { ...stage, number, plan: buildPlan(stage.plan) };
  if (stage.kind !== 'measure') return { ...stage, number };
  const { id, title, steps, caution, hold, closes, what } = stage;
  const target = targetOf(stage);
  return target === null ? null : { id, number, title, steps, caution, hold, closes, kind: 'measure', what, target };
}

/** The noun; null as long as `measureProblems` finds anything. */
export function buildProcedure(written: WrittenProcedure): Procedure | null {
  const stages = written.stages.map((stage, index) => buildStage(stage, index + 1));
  const whole = stages.filter((stage) => stage !== null);
  return whole.length === stages.length ? { ...written, stages: whole } : null;
}
