/** What is said in a stage. */
import type { Here } from './context';
import { phraseOf } from './legal';
import { bandOf } from './measure-work';
import type { Task } from './next-task';
import { stowLedger } from './stow-work';
import { itemName } from './place';
import type { Words } from './words';
import { capital, countWords, joinWords, plain, sentence, words } from './words';

type StageTask = Extract<Task, { kind: 'stage' }>;
type RestoreTask = Extract<Task, { kind: 'restore' }>;

/** What to do now, in one sentence. */
function askOf({ context }: Here, { stage, procedure }: StageTask): Words {
  switch (stage.kind) {
    case 'confirm':
      return plain(`Say ${phraseOf('stageComplete')} when it is done.`);
    case 'count':
      return words`Say the number and the word ${stage.noun}.`;
    case 'stow': {
      const { done, planned, nextSide } = stowLedger(context.state, stage);
      if (nextSide === null)
        return words`All ${countWords(planned, 'stows')} are done. Say ${phraseOf('stageComplete')} to go on.`;
      return words`${done} of ${countWords(planned, 'stows')}. Next, ${nextSide}.`;
    }
    case 'measure': {
      const { expected } = bandOf(procedure, context.state, stage);
      return words`${capital(stage.what)}: ${expected} expected. Measure, and say the length with its unit.`;
    }
    case 'place':
      return plain(`Put in the ${itemName(procedure, stage.item)}. Say ${phraseOf('itemPlaced')} when it is in.`);
    case 'remove':
      return plain(`Take out the ${itemName(procedure, stage.item)}. Say ${phraseOf('itemRemoved')} when it is out.`);
  }
}

/** Stowing is told how long and how many turns, once. */
function howToStow({ context }: Here, { stage }: StageTask): Words {
  if (stage.kind !== 'stow') return plain('');
  const { bight, wraps, planned, remainder } = stowLedger(context.state, stage);
  const turns = wraps === 1 ? plain('one turn') : words`${wraps} turns`;
  return words`${countWords(planned, 'stows')} of ${bight}, ${turns} of the band. ${remainder} should remain.`;
}

/** The stage as a whole on arrival; only what to do now while it goes on. */
export function stagePrompt(here: Here, task: StageTask): Words {
  const ask = askOf(here, task);
  if (here.context.brief) return ask;
  const { stage, procedure } = task;
  return joinWords([
    words`Stage ${stage.number} of ${procedure.stages.length}. ${sentence(stage.title)}`,
    ...stage.steps.map((step) => plain(sentence(step))),
    plain(stage.caution === null ? '' : `Caution: ${sentence(stage.caution)}`),
    howToStow(here, task),
    ask,
  ]);
}

/** A temporary item must be put right before the work goes on. */
export function restorePrompt(here: Here, { item, direction, before }: RestoreTask): Words {
  const ask =
    direction === 'out'
      ? plain(`Take out the ${item.name}. Say ${phraseOf('itemRemoved')} when it is out.`)
      : plain(`Put back the ${item.name}. Say ${phraseOf('itemPlaced')} when it is in.`);
  if (here.context.brief || before === null) return ask;
  return joinWords([words`Before stage ${before.number}, ${sentence(before.title)}`, ask]);
}
