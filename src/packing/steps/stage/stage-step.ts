/** The step of a stage; what differs from kind to kind lies in `kinds`. */
import type { Procedure } from '../../../domain/procedure';
import type { Here, PackContext } from '../../machine/context';
import type { Detail } from '../../machine/view';
import { itemName } from '../../state/place';
import type { PromptPart } from '../../words/prompt-parts';
import { part } from '../../words/prompt-parts';
import type { Step } from '../step';
import { usualActs } from '../usual-acts';
import { stageAt } from './kinds';
import { stageRead } from './stage-read';

/** The stage as a whole on arrival; only what to do now while it goes on. */
function prompt(here: Here<'stage'>): readonly PromptPart[] {
  const { stage, procedure } = here.task;
  const at = stageAt(here);
  if (here.context.brief) return at.ask();
  return [...stageRead(stage, procedure), part('todo', at.told()), ...at.ask()];
}

/** Names of the temporary items that are in. */
export function itemsIn({ state }: Pick<PackContext, 'state'>, procedure: Procedure): readonly string[] {
  return [...state.itemsIn].map((id) => itemName(procedure, id));
}

function detail(here: Here<'stage'>): Detail {
  const { stage, procedure } = here.task;
  return {
    screen: 'stage',
    number: stage.number,
    of: procedure.stages.length,
    kind: stage.kind,
    title: stage.title,
    steps: stage.steps,
    caution: stage.caution,
    stow: null,
    measure: null,
    count: null,
    item: null,
    ...stageAt(here).drawing(),
    itemsIn: itemsIn(here.context, procedure),
  };
}

export const stageStep: Step<'stage'> = {
  acts: (here) => [...stageAt(here).acts(), ...usualActs(here)],
  prompt,
  detail,
};
