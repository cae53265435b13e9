/** The close-up checks: computed from the facts, so that no word of anybody can stand in for them. */
import type { CheckLine } from '../../../domain/fact';
import type { Procedure, Stage } from '../../../domain/procedure';
import { holdsOf } from '../../../domain/procedure';
import type { PackState } from '../../state/pack-state';
import { isReleased, workOf } from '../../state/pack-state';
import { isStageDone } from '../stage/kinds/index';
import { listOf } from '../../words/words';

/** What is said where nothing is missing, and what before a list of what is. */
interface LineWords {
  readonly sound: string;
  readonly wrong: string;
}

function line(label: string, missing: readonly string[], { sound, wrong }: LineWords): CheckLine {
  const passed = missing.length === 0;
  return { label, passed, detail: passed ? sound : `${wrong}: ${listOf(missing)}.` };
}

function toolsMissing(procedure: Procedure, state: PackState): readonly string[] {
  return procedure.tools
    .filter((tool) => (state.toolsOut.get(tool.id) ?? -1) !== (state.toolsBack.get(tool.id) ?? -2))
    .map((tool) => tool.name);
}

/** What was not counted before the container was closed over it. */
function notAccounted(procedure: Procedure, state: PackState): readonly string[] {
  const { toolsOut, toolsAccounted, itemsAccounted } = state;
  const tools = procedure.tools.filter(({ id }) => (toolsOut.get(id) ?? -1) !== (toolsAccounted.get(id) ?? -2));
  const isTrayOwed = procedure.temporaryItems.length > 0 && !itemsAccounted.has('closing');
  return [...tools.map(({ name }) => name), ...(isTrayOwed ? ['temporary items'] : [])];
}

function itemsWrong(procedure: Procedure, state: PackState): readonly string[] {
  const inside = procedure.temporaryItems.filter(
    (item) =>
      state.itemsIn.has(item.id) || (state.itemsPlaced.get(item.id) ?? 0) !== (state.itemsRemoved.get(item.id) ?? 0),
  );
  // An item that the procedure does not know cannot be asked for by name, and must not be overlooked either.
  const known = new Set(procedure.temporaryItems.map((item) => item.id));
  const strange = [...state.itemsIn].filter((id) => !known.has(id));
  return [...inside.map((item) => item.name), ...strange];
}

function notDone(procedure: Procedure, state: PackState): readonly string[] {
  const owed = (stage: Stage): boolean => !isStageDone(stage, workOf(state, stage.id));
  return procedure.stages.filter(owed).map((stage) => `stage ${String(stage.number)}, ${stage.title}`);
}

/** The five lines that must all pass before anybody can sign. */
export function closeUpChecks(procedure: Procedure, state: PackState): readonly CheckLine[] {
  const holds = holdsOf(procedure);
  const closed = holds.filter(({ hold }) => !isReleased(state, hold.id)).map(({ hold }) => hold.title);
  return [
    line('Counted before closing', notAccounted(procedure, state), {
      sound: 'Tools and temporary items were counted before the container was closed.',
      wrong: 'Not counted',
    }),
    line('Tools back', toolsMissing(procedure, state), {
      sound: 'Every tool that went out is back.',
      wrong: 'Not back',
    }),
    line('Temporary items', itemsWrong(procedure, state), {
      sound: 'Every item that went in is out.',
      wrong: 'Still in',
    }),
    line('Inspection holds', closed, { sound: `All ${String(holds.length)} are released.`, wrong: 'Not released' }),
    line('Stages and values', notDone(procedure, state), { sound: 'Every value is present.', wrong: 'Missing' }),
  ];
}
