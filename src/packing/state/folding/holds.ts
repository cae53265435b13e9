/** Holds: calls, presence, verdicts, and all that has to be done again. */
import type { Loft } from '../../../domain/loft';
import type { Stage } from '../../../domain/procedure';
import { BACK_TO_SIGNATURE, firstClosingStage, stageOf } from '../../../domain/procedure';
import { isStageDone } from '../../steps/stage/kinds';
import { procedureOf, workOf } from '../pack-state';
import { unsign } from './ends';
import type { FactOf, Folding, Folds } from './folding';

interface HoldPlace {
  readonly stage: Stage;
  /** The work before it is done. */
  readonly isDue: boolean;
}

/** The stage that a hold follows; null for a hold that the procedure lacks. */
function placeOfHold(loft: Loft, folding: Folding, hold: string): HoldPlace | null {
  const procedure = procedureOf(loft, folding);
  if (procedure === null) return null;
  const { stages, finalHold } = procedure;
  const last = stages.at(-1);
  if (last !== undefined && finalHold?.id === hold) {
    return { stage: last, isDue: folding.signed !== null && folding.cardPlaced };
  }
  const stage = stages.find((one) => one.hold?.id === hold);
  return stage === undefined ? null : { stage, isDue: isStageDone(stage, workOf(folding, stage.id)) };
}

/** Fails closed: a release that does not follow its own inspector's scan, or its own finished work, opens nothing. */
function release(folding: Folding, { at, body }: FactOf<'holdReleased'>, loft: Loft): void {
  const { hold, inspector, sighting } = body;
  folding.verdictGivers.add(inspector);
  const place = placeOfHold(loft, folding, hold);
  if (place === null || !place.isDue) return;
  if (!folding.spent.has(sighting) || folding.packers.includes(inspector)) return;
  folding.called.delete(place.stage.id);
  folding.releases.set(hold, { inspector, sighting, at });
}

/**
 * After a return or a reopening: everything from that stage on must be done again, counts and holds included; what lies
 * in the pack still lies in it. Back to the signature means that the pack itself stays as it is.
 */
function goBack(loft: Loft, folding: Folding, backTo: string): void {
  folding.outside = null;
  unsign(folding);
  const procedure = procedureOf(loft, folding);
  if (procedure === null) return;
  if (procedure.finalHold !== undefined) folding.releases.delete(procedure.finalHold.id);
  if (backTo === BACK_TO_SIGNATURE) return;
  const from = stageOf(procedure, backTo)?.number ?? 1;
  for (const stage of procedure.stages) {
    if (stage.number < from) continue;
    folding.stages.delete(stage.id);
    folding.called.delete(stage.id);
    if (stage.hold !== null) folding.releases.delete(stage.hold.id);
  }
  folding.toolsBack.clear();
  folding.itemsAccounted.delete('signature');
  // Open up to the first closing stage: what is inside it is counted again before it is closed.
  if (from > (firstClosingStage(procedure)?.number ?? 0)) return;
  folding.toolsAccounted.clear();
  folding.itemsAccounted.delete('closing');
}

export const HOLD_FOLDS: Folds<'inspectorCalled' | 'inspectorPresent' | 'holdReleased' | 'holdReturned' | 'reopened'> =
  {
    inspectorCalled: (folding, { body }) => {
      folding.called.add(body.stage);
    },
    inspectorPresent: (folding, { body }) => {
      folding.spent.add(body.sighting);
    },
    holdReleased: release,
    holdReturned: (folding, { body }, loft) => {
      folding.verdictGivers.add(body.inspector);
      folding.returns = [...folding.returns, body];
      goBack(loft, folding, body.backTo);
    },
    reopened: (folding, { by, body }, loft) => {
      folding.reopenings = [...folding.reopenings, { backTo: body.backTo, by }];
      goBack(loft, folding, body.backTo);
    },
  };
