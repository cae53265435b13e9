/** The line with which a stowing stage begins, and whether the stage can end with it. */
import type { CheckLine } from '../../../../../domain/fact';
import { canEnd } from '../../../../../domain/stow/plan-check';
import type { Stage } from '../../../../../domain/procedure';
import type { Quantity } from '../../../../../domain/quantity';
import { makeQuantity } from '../../../../../domain/quantity';
import { leastStows, lineLeft, statedBand } from '../../../../../domain/stow/stow-plan';
import type { PackState } from '../../../../state/pack-state';
import { workOf } from '../../../../state/pack-state';

export type StowStage = Extract<Stage, { kind: 'stow' }>;

/** Line when the stage begins: what an earlier stage measured, where the plan says so. */
export function lineAtStart(state: Pick<PackState, 'stages'>, { plan }: StowStage): Quantity {
  if (plan.lineFrom === null) return plan.line;
  return workOf(state, plan.lineFrom).measured ?? plan.line;
}

/** The check that stops a stowing stage which cannot end as its plan states; null where it can. */
export function lineFault(state: Pick<PackState, 'stages'>, stage: StowStage): CheckLine | null {
  const { plan } = stage;
  const start = lineAtStart(state, stage);
  if (canEnd(plan, start)) return null;
  const { lowest, highest } = statedBand(plan);
  const left = lineLeft(start, plan, leastStows(plan));
  const short = left.value < lowest.value;
  return {
    label: 'Line',
    passed: false,
    detail:
      `${short ? 'Not enough line' : 'Too much line'} for stage ${String(stage.number)}: ${makeQuantity(start)} on hand ` +
      `leaves ${makeQuantity(left)}, and ${makeQuantity(lowest)} to ${makeQuantity(highest)} must remain. ` +
      'Do not stow. Call the lead, then go back to an earlier stage, or stop and tag.',
  };
}
