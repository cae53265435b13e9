/** Acts that belong to many steps: asking, pausing, calling. */
import type { Here } from '../machine/context';
import { answer, moveTo, remarkOn, store, storeAct } from '../machine/decision';
import type { Act } from '../machine/legal';
import { act } from '../machine/legal';
import { whatRemains } from '../words/what-remains';
import { plain } from '../words/words';

/** Repeats what was last said, in full. Where something is owed to the journal, it tries to store that again. */
export function sayAgain(here: Here): Act {
  return act('sayAgain', {}, () => {
    const { context, phase } = here;
    if (context.owed.length > 0) return store(here, [], { presence: context.presence });
    return moveTo(here, phase, { remark: context.remark });
  });
}

export function remaining(here: Here): Act {
  return act('whatRemains', {}, () => remarkOn(here, answer(whatRemains(here))));
}

export function standBy(here: Here): Act {
  return act('standBy', {}, (_, { at }) => storeAct(here, { at, body: { kind: 'stoodBy' } }));
}

/** Nobody is rung: who heard only "called" would wait at the table for nobody. */
const CALLED = 'The call is written down and shown at this table. Nobody is rung. Call out, or send for the inspector.';

/** The call is kept with its stage, so that the record tells since when a table waited. */
export function callInspector(here: Here): readonly Act[] {
  const { task } = here;
  if (task.kind !== 'stage' && task.kind !== 'hold') return [];
  return [
    act('callInspector', {}, (_, { at }) =>
      storeAct(
        here,
        { at, body: { kind: 'inspectorCalled', stage: task.stage.id } },
        {
          remark: answer(plain(CALLED)),
        },
      ),
    ),
  ];
}

/** The points are read only when somebody asks for them, before the badge or after it. */
export function readList(here: Here): Act {
  return act('readList', {}, () => moveTo(here, here.phase, { reading: true, brief: true }));
}
