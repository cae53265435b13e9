/** When tools and temporary items are to be counted: out, before the container is closed, and before the signature. */
import type { Procedure } from '../../../domain/procedure';
import type { PackState } from '../../state/pack-state';
import type { Task, Tasks } from '../../state/task';

type ToolKind = 'toolOut' | 'toolCheck' | 'toolBack';

/** The first line of tools that was not counted yet. */
function lineDue(kind: ToolKind, procedure: Procedure, counted: PackState['toolsOut']): Task | null {
  const index = procedure.tools.findIndex((tool) => !counted.has(tool.id));
  const tool = procedure.tools[index];
  return tool === undefined ? null : { kind, procedure, tool, index };
}

function itemsDue(procedure: Procedure, state: PackState, before: Tasks['items']['before']): Task | null {
  const { temporaryItems } = procedure;
  if (temporaryItems.length === 0 || state.itemsAccounted.has(before)) return null;
  const inside = temporaryItems.filter(({ id }) => state.itemsIn.has(id));
  const out = temporaryItems.filter(({ id }) => !state.itemsIn.has(id));
  return { kind: 'items', procedure, before, out, inside };
}

/** Before the first stage. */
export function toolOutDue(procedure: Procedure, { toolsOut }: PackState): Task | null {
  return lineDue('toolOut', procedure, toolsOut);
}

/** Nothing is closed over a tool or an item that nobody has seen. */
export function countBeforeClosingDue(procedure: Procedure, state: PackState): Task | null {
  return lineDue('toolCheck', procedure, state.toolsAccounted) ?? itemsDue(procedure, state, 'closing');
}

/** Behind the last stage, before the signature. */
export function toolsAndItemsBackDue(procedure: Procedure, state: PackState): Task | null {
  return lineDue('toolBack', procedure, state.toolsBack) ?? itemsDue(procedure, state, 'signature');
}
