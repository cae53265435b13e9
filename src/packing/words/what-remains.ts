/** The answer to "what remains". */
import type { Procedure } from '../../domain/procedure';
import { allHoldsOf } from '../../domain/procedure';
import type { Here } from '../machine/context';
import { missingKinds } from '../steps/identify/identify';
import { isReleased, procedureOf, workOf } from '../state/pack-state';
import { isStageDone, stageAt } from '../steps/stage/kinds';
import { itemName } from '../state/place';
import type { Words } from './words';
import { joinWords, listOf, plain, words } from './words';

function total(counts: ReadonlyMap<string, number>): number {
  return [...counts.values()].reduce((sum, count) => sum + count, 0);
}

type HoldAt = ReturnType<typeof allHoldsOf>[number];

function nextHold({ finalHold }: Procedure, next: HoldAt | undefined): Words {
  if (next === undefined) return plain('No hold is left.');
  if (next.hold.id === finalHold?.id) return plain('The final inspection is left.');
  return words`Next hold after stage ${next.stage.number}.`;
}

/** Stages left, next hold, what is left of this stage, temporary items in, tools out; before check-in, what is still to be scanned. */
export function whatRemains(here: Here): Words {
  const { context, task } = here;
  const { loft, state } = context;
  const procedure = procedureOf(loft, state);
  if (procedure === null || state.checkIn === null) {
    const missing = missingKinds(state);
    return plain(missing.length === 0 ? 'Nothing is left to scan.' : `Still to scan: ${listOf(missing)}.`);
  }
  // Signed: items and tools were counted for the signature.
  if (task.kind === 'hold' && task.final) return plain('Only this inspection is left.');
  const left = procedure.stages.filter((stage) => !isStageDone(stage, workOf(state, stage.id)));
  const next = allHoldsOf(procedure).find(({ hold }) => !isReleased(state, hold.id));
  const inside = [...state.itemsIn].map((item) => itemName(procedure, item));
  const ofStage = task.kind === 'stage' ? stageAt({ ...here, task }).remains() : plain('');
  return joinWords([
    words`Stages left: ${left.length}.`,
    nextHold(procedure, next),
    ofStage,
    plain(inside.length === 0 ? 'No temporary item is in.' : `Temporary items in: ${listOf(inside)}.`),
    // How many would tell what is to be counted back.
    plain(total(state.toolsOut) > total(state.toolsBack) ? 'Tools are out.' : 'No tool is out.'),
  ]);
}
