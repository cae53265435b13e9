/** Names of temporary items. */
import type { Procedure } from '../domain/procedure';

/** The item's name in the procedure; its id where the procedure does not know it. */
export function itemName(procedure: Procedure, id: string): string {
  return procedure.temporaryItems.find((item) => item.id === id)?.name ?? id;
}
