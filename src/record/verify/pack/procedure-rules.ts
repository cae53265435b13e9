/** What a procedure must hold so that anybody may pack by it, by the verifier's own copy of the rules and its own sums. */
import type { Procedure } from '../../../domain/procedure';
import type { Finding } from '../finding';
import { micrometres } from '../sums/lengths';
import type { StowStage } from '../sums/stow-sums';
import { hidesStow, hasRoom, isTooNarrow, remainderBand } from '../sums/stow-sums';

/** What is wrong, and a sentence without its beginning. */
export type Against = Pick<Finding, 'what' | 'detail'>;

/** More stows than anybody counts at one stage; a plan beyond it is not worked through either. */
const MOST_STOWS = 200;

/** Everything that is wrong with holds, stow plans and the measures behind them; demanded since edition 2. */
export function againstRules(procedure: Procedure): readonly Against[] {
  const stows = procedure.stages.flatMap((stage) => (stage.kind === 'stow' ? [stage] : []));
  return [...againstHolds(procedure), ...stows.flatMap((stage) => againstStowing(procedure, stage))];
}

/** Somebody else looks while it is packed, or the procedure says why nobody does; the final hold is asked for elsewhere. */
function againstHolds({ stages, noHolds }: Procedure): readonly Against[] {
  const holds = stages.some(({ hold }) => hold !== null);
  const excused = typeof noHolds === 'string';
  if (holds && excused)
    return [{ what: 'hold', detail: 'the procedure has holds between its stages, and a reason for having none' }];
  if (holds || (excused && noHolds.trim() !== '')) return [];
  return [{ what: 'hold', detail: 'the procedure has no hold between its stages, and no reason why' }];
}

function againstStowing(procedure: Procedure, stage: StowStage): readonly Against[] {
  const measured = isMeasured(procedure, stage);
  const unmeasured = `nobody measures what stage ${stage.id} leaves before anything more is stowed`;
  return [
    ...againstPlan(stage).map((detail): Against => ({ what: 'stow', detail })),
    ...(measured ? [] : [{ what: 'measure', detail: unmeasured } as const]),
  ];
}

/** By a measure of this very remainder that comes before the next stows. */
function isMeasured({ stages }: Procedure, { id }: StowStage): boolean {
  const after = stages.slice(stages.findIndex((one) => one.id === id) + 1);
  const stowedOn = after.findIndex(({ kind }) => kind === 'stow');
  const between = stowedOn < 0 ? after : after.slice(0, stowedOn);
  return between.some(
    (one) => one.kind === 'measure' && one.target.from === 'remainder' && one.target.stowStage === id,
  );
}

function againstPlan({ id, plan }: StowStage): readonly string[] {
  const { stows, least = stows, remainder, under, line, perStow, viewpoint } = plan;
  if (!(least >= 1 && least <= stows && stows <= MOST_STOWS)) return [`the plan of stage ${id} has no number of stows`];
  const faults: string[] = [];
  if (!(perStow !== undefined && perStow.value > 0))
    faults.push(`the plan of stage ${id} does not say how true a stow is`);
  if (viewpoint === undefined || viewpoint.trim() === '')
    faults.push(`the plan of stage ${id} does not say whose left and right are meant`);
  if (!(micrometres(remainder) > micrometres(under)))
    faults.push(`by the plan of stage ${id} no line at all may remain`);
  const counts = Array.from({ length: stows - least + 1 }, (_, index) => least + index);
  if (!counts.some((made) => hasRoom(remainderBand(plan, micrometres(line), made))))
    faults.push(`with no number of stows the plan of stage ${id} leaves what it states`);
  if (isTooNarrow(plan)) faults.push(`the plan of stage ${id} promises more than its stows come out with`);
  if (hidesStow(plan)) faults.push(`by the plan of stage ${id} a stow too many would not show`);
  return faults;
}
