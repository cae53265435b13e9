/** Names for where a pack stands, who is at it, and what lies in it. */
import type { PersonId } from '../../domain/ids';
import { personById } from '../../domain/loft';
import type { Procedure } from '../../domain/procedure';
import type { PackContext } from '../machine/context';
import type { Task } from './task';
import type { Words } from '../words/words';
import { plain, words } from '../words/words';

/** A short name for the present step: "stage 4, Long fold". */
export function placeWords(task: Task): Words {
  switch (task.kind) {
    case 'identify':
      return plain('identification');
    case 'blocked':
      return plain('the failed checks');
    case 'inspect':
      return plain(`the inspection of the ${task.component}`);
    case 'toolOut':
      return plain('the count of tools out');
    case 'toolCheck':
      return plain('the count of tools before closing');
    case 'items':
      return plain('the temporary items');
    case 'toolBack':
      return plain('the count of tools back');
    case 'restore':
      return words`temporary item ${task.item.name}`;
    case 'stage':
      return words`stage ${task.stage.number}, ${task.stage.title}`;
    case 'hold':
      if (task.final) return words`the final inspection, ${task.hold.title}`;
      return words`the hold after stage ${task.stage.number}, ${task.hold.title}`;
    case 'sign':
      return plain('the signature');
    case 'card':
      return plain('the data card');
    case 'recorded':
      return plain('the log record');
    case 'stopped':
      return plain('the end');
  }
}

/** The person's name; "nobody" for none, the id where the loft no longer knows it. */
export function personName({ loft }: Pick<PackContext, 'loft'>, id: PersonId | null): string {
  if (id === null) return 'nobody';
  return personById(loft, id)?.name ?? id;
}

/** The temporary item's name in the procedure; its id where the procedure does not know it. */
export function itemName(procedure: Procedure, id: string): string {
  return procedure.temporaryItems.find((item) => item.id === id)?.name ?? id;
}
