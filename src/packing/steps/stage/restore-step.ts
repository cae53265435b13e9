/** A temporary item is put right, after a return, before the work goes on. */
import type { Here } from '../../machine/context';
import type { Detail } from '../../machine/view';
import type { PromptPart } from '../../words/prompt-parts';
import { part } from '../../words/prompt-parts';
import { sentence, words } from '../../words/words';
import type { Step } from '../step';
import { usualActs } from '../usual-acts';
import { askToPlace, askToRemove, placeAct, removeAct } from './kinds/items';
import { itemsIn } from './stage-step';

function prompt({ context, task }: Here<'restore'>): readonly PromptPart[] {
  const { item, direction, before } = task;
  const ask = direction === 'out' ? askToRemove(item.name) : askToPlace(`Put back the ${item.name}`);
  if (context.brief || before === null) return ask;
  return [part('todo', words`Before stage ${before.number}, ${sentence(before.title)}`), ...ask];
}

function detail({ context, task }: Here<'restore'>): Detail {
  const { procedure, before, item, direction } = task;
  const total = procedure.stages.length;
  return {
    screen: 'stage',
    number: before?.number ?? total,
    of: total,
    kind: 'restore',
    title: direction === 'out' ? 'Take a temporary item out' : 'Put a temporary item back',
    steps: [],
    caution: null,
    stow: null,
    measure: null,
    count: null,
    item: { name: item.name, direction },
    itemsIn: itemsIn(context, procedure),
  };
}

export const restoreStep: Step<'restore'> = {
  acts: (here) => {
    const { item, direction } = here.task;
    const moved = { stage: null, item: item.id };
    return [direction === 'out' ? removeAct(here, moved) : placeAct(here, moved), ...usualActs(here)];
  },
  prompt,
  detail,
};
