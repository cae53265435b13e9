/** The acts of a stage, by its kind; and of putting temporary items right before one. */
import { MOST_COUNTED } from '../../../domain/enterable';
import type { Stage } from '../../../domain/procedure';
import { exampleCount } from '../../words/blind';
import type { Here } from '../../machine/context';
import { isSoundCount, unsoundCount } from '../../words/counting';
import type { Decision } from '../../machine/decision';
import { answer, readBackOf, refusal, remarkOn, storeAct } from '../../machine/decision';
import type { Act } from '../../machine/legal';
import { act, MAIN } from '../../machine/legal';
import { measureActs } from './measure-work';
import { taskKey } from '../../state/next-task';
import { stowActs } from './stow-work';
import { countWords, words } from '../../words/words';

type CountStage = Extract<Stage, { kind: 'count' }>;

function countedBack(here: Here, stage: CountStage, counted: number): Decision {
  const { noun, expected } = stage;
  if (!isSoundCount(counted)) return remarkOn(here, unsoundCount());
  const asked = words`${countWords(counted, noun)}.`;
  if (counted !== expected) {
    const given = { step: taskKey(here.task), count: counted };
    const wrong = words`Not taken: ${countWords(counted, noun)} counted, ${expected} expected. Count again, or let the inspector decide.`;
    return readBackOf(here, asked, { kind: 'refuse', remark: refusal(wrong), given });
  }
  return readBackOf(here, asked, {
    kind: 'store',
    by: here.context.state.packer,
    bodies: [{ kind: 'counted', stage: stage.id, noun, count: counted }],
    remark: answer(words`${countWords(counted, noun)}, ${expected} expected.`),
  });
}

function countAct(here: Here, stage: CountStage): Act {
  const { noun, expected } = stage;
  const differing = {
    ...MAIN,
    label: `Count ${noun}`,
    phrase: exampleCount(expected, noun),
    input: { kind: 'count', noun, max: MOST_COUNTED },
  } as const;
  return act('count', differing, ({ count }) => countedBack(here, stage, count));
}

/** What ends or advances the present stage. */
export function stageActs(here: Here): readonly Act[] {
  const { task } = here;
  if (task.kind !== 'stage') return [];
  const { stage, procedure } = task;
  switch (stage.kind) {
    case 'confirm':
      return [
        act('stageComplete', MAIN, (_, { channel, at }) =>
          storeAct(here, at, { kind: 'stageConfirmed', stage: stage.id, channel }),
        ),
      ];
    case 'count':
      return [countAct(here, stage)];
    case 'stow':
      return stowActs(here, stage);
    case 'measure':
      return measureActs(here, procedure, stage);
    case 'place':
      return [
        act('itemPlaced', MAIN, (_, { at }) =>
          storeAct(here, at, { kind: 'itemPlaced', stage: stage.id, item: stage.item }),
        ),
      ];
    case 'remove':
      return [
        act('itemRemoved', MAIN, (_, { at }) =>
          storeAct(here, at, { kind: 'itemRemoved', stage: stage.id, item: stage.item }),
        ),
      ];
  }
}

/** Putting a temporary item where the next stage needs it, after a return. */
export function restoreActs(here: Here): readonly Act[] {
  const { task } = here;
  if (task.kind !== 'restore') return [];
  const { item, direction } = task;
  return direction === 'out'
    ? [act('itemRemoved', MAIN, (_, { at }) => storeAct(here, at, { kind: 'itemRemoved', stage: null, item: item.id }))]
    : [act('itemPlaced', MAIN, (_, { at }) => storeAct(here, at, { kind: 'itemPlaced', stage: null, item: item.id }))];
}
