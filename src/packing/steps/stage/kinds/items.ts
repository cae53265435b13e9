/** Stages in which a temporary item goes in or comes out. */
import type { Instant } from '../../../../domain/instant';
import type { Procedure } from '../../../../domain/procedure';
import type { Here } from '../../../machine/context';
import type { Decision } from '../../../machine/decision';
import { storeAct } from '../../../machine/decision';
import type { Act } from '../../../machine/legal';
import { act, MAIN, phraseOf } from '../../../machine/legal';
import { itemName } from '../../../state/place';
import type { PromptPart } from '../../../words/prompt-parts';
import { part } from '../../../words/prompt-parts';
import { words } from '../../../words/words';
import type { StageForm, TakenBack } from '../stage-kind';

/** An item that is moved; `stage` is null where it is only put right before the work goes on. */
export interface Moved {
  readonly stage: string | null;
  readonly item: string;
}

/** The act of putting an item in. */
export function placeAct(here: Here, moved: Moved): Act {
  const place = (at: Instant): Decision => storeAct(here, { at, body: { kind: 'itemPlaced', ...moved } });
  return act('itemPlaced', MAIN, (_, { at }) => place(at));
}

/** The act of taking an item out. */
export function removeAct(here: Here, moved: Moved): Act {
  const remove = (at: Instant): Decision => storeAct(here, { at, body: { kind: 'itemRemoved', ...moved } });
  return act('itemRemoved', MAIN, (_, { at }) => remove(at));
}

/** "Put in the nose tie. Say item placed when it is in." */
export function askToPlace(what: string): readonly PromptPart[] {
  return [part('todo', `${what}.`), part('say', `Say ${phraseOf('itemPlaced')} when it is in.`)];
}

/** "Take out the nose tie. Say item removed when it is out." */
export function askToRemove(item: string): readonly PromptPart[] {
  return [part('todo', `Take out the ${item}.`), part('say', `Say ${phraseOf('itemRemoved')} when it is out.`)];
}

export const placeForm: StageForm<'place'> = {
  acts: ({ here, stage: { id, item } }) => [placeAct(here, { stage: id, item })],
  ask: ({ procedure, stage }) => askToPlace(`Put in the ${itemName(procedure, stage.item)}`),
  drawing: ({ procedure, stage }) => ({ item: { name: itemName(procedure, stage.item), direction: 'in' } }),
  isDone: (_, { itemMoved }) => itemMoved,
};

export const removeForm: StageForm<'remove'> = {
  acts: ({ here, stage: { id, item } }) => [removeAct(here, { stage: id, item })],
  ask: ({ procedure, stage }) => askToRemove(itemName(procedure, stage.item)),
  drawing: ({ procedure, stage }) => ({ item: { name: itemName(procedure, stage.item), direction: 'out' } }),
  isDone: (_, { itemMoved }) => itemMoved,
};

function nameOf(procedure: Procedure | null, item: string): string {
  return procedure === null ? item : itemName(procedure, item);
}

/** That an item went in. */
export const placedBack: TakenBack<'itemPlaced'> = ({ item }, procedure) =>
  words`that ${nameOf(procedure, item)} went in`;

/** That an item came out. */
export const removedBack: TakenBack<'itemRemoved'> = ({ item }, procedure) =>
  words`that ${nameOf(procedure, item)} came out`;
