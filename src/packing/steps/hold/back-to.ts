/** Where a return can lead: a stage that is done, or, at the final hold, only the signature and the data card. */
import type { Finding } from '../../../domain/procedure';
import { BACK_TO_SIGNATURE } from '../../../domain/procedure';
import type { Tasks } from '../../state/task';
import type { Words } from '../../words/words';
import { plain, words } from '../../words/words';

export type HoldTask = Tasks['hold'];

export interface BackTo {
  /** Id of the stage, or `BACK_TO_SIGNATURE`. */
  readonly id: string;
  /** To be said or pressed; the signature stands behind the last stage. */
  readonly number: number;
  readonly label: string;
  readonly words: Words;
}

/** All places that a return from this hold can lead to, in their order; never a later one than the hold. */
export function placesBack({ procedure, stage, final }: HoldTask): readonly BackTo[] {
  const stages = procedure.stages
    .filter(({ number }) => number <= stage.number)
    .map(({ id, number, title }) => ({ id, number, label: title, words: words`stage ${number}, ${title}` }));
  if (!final) return stages;
  const signature = {
    id: BACK_TO_SIGNATURE,
    number: procedure.stages.length + 1,
    label: 'Only the signature and the data card',
    words: plain('the signature and the data card'),
  };
  return [...stages, signature];
}

/** Where a return for this finding leads unless the inspector says otherwise: the hold's own stage where it names none. */
export function backToOf(task: HoldTask, finding: Finding): BackTo {
  const places = placesBack(task);
  const own = { id: task.stage.id, number: task.stage.number, label: task.stage.title };
  return (
    places.find(({ id }) => id === finding.backTo) ?? { ...own, words: words`stage ${own.number}, ${task.stage.title}` }
  );
}
