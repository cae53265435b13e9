/** Acts that belong to many phases: asking, pausing, calling, stopping. */
import type { Here } from './context';
import { answer, moveTo, readBackOf, remarkOn, store, storeAct } from './decision';
import type { Act } from './legal';
import { act } from './legal';
import { personName, placeWords } from './place';
import { whatRemains } from './what-remains';
import { plain, words } from './words';

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
  return act('standBy', {}, (_, { at }) => storeAct(here, at, { kind: 'stoodBy' }));
}

/** The inspector is called by name of the stage, so that the loft knows which table waits. */
export function callInspector(here: Here): readonly Act[] {
  const { task } = here;
  if (task.kind !== 'stage' && task.kind !== 'hold') return [];
  return [
    act('callInspector', {}, (_, { at }) =>
      storeAct(
        here,
        at,
        { kind: 'inspectorCalled', stage: task.stage.id },
        {
          remark: answer(plain('The inspector has been called.')),
        },
      ),
    ),
  ];
}

/** Ends the pack for good, so it is read back first. */
export function stopAndTag(here: Here): Act {
  return act('stopAndTag', { main: here.phase === 'blocked' }, () => {
    const { context, task } = here;
    const { packer } = context.state;
    const failed = task.kind === 'blocked' ? task.checks.filter((line) => !line.passed) : [];
    const why = failed.map((line) => `${line.label}: ${line.detail}`).join(' ');
    const place = placeWords(task).show;
    const reason = `Stopped by ${personName(context, packer)} at ${place}.${why === '' ? '' : ` ${why}`}`;
    return readBackOf(here, words`Stop this pack for good and tag the assembly as not fit for use.`, {
      kind: 'store',
      by: packer,
      bodies: [{ kind: 'stopped', reason }],
      remark: null,
    });
  });
}
