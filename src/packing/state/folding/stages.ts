/** Work in a stage. */
import type { StageWork } from '../pack-state';
import { workOf } from '../pack-state';
import type { Folding, Folds } from './folding';

function change(folding: Folding, stage: string | null, work: Partial<StageWork>): void {
  if (stage === null) return;
  folding.stages.set(stage, { ...workOf(folding, stage), ...work, by: folding.packer });
}

function countUp(counts: Map<string, number>, item: string): void {
  counts.set(item, (counts.get(item) ?? 0) + 1);
}

export const STAGE_FOLDS: Folds<
  'stageConfirmed' | 'counted' | 'stowed' | 'measured' | 'itemPlaced' | 'itemRemoved' | 'corrected'
> = {
  stageConfirmed: (folding, { body }) => change(folding, body.stage, { confirmed: true }),
  counted: (folding, { body }) => change(folding, body.stage, { counted: body.count }),
  stowed: (folding, { body: { stage, count } }) =>
    change(folding, stage, { stows: workOf(folding, stage).stows + count }),
  measured: (folding, { body }) => {
    folding.outside = body.within ? null : body;
    if (body.within) change(folding, body.stage, { measured: body.value });
    else folding.outsides = [...folding.outsides, body];
  },
  itemPlaced: (folding, { body }) => {
    folding.itemsIn.add(body.item);
    countUp(folding.itemsPlaced, body.item);
    change(folding, body.stage, { itemMoved: true });
  },
  itemRemoved: (folding, { body }) => {
    folding.itemsIn.delete(body.item);
    countUp(folding.itemsRemoved, body.item);
    change(folding, body.stage, { itemMoved: true });
  },
  // What it takes back is left out of the fold altogether.
  corrected: (folding) => {
    folding.outside = null;
  },
};
