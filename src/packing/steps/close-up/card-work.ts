/** Signed: the card is printed and goes into its pocket, where the final inspection looks for it. */
import { sayDate } from '../../../domain/plain-date';
import type { Here } from '../../machine/context';
import { storeAct } from '../../machine/decision';
import type { Act } from '../../machine/legal';
import { act, MAIN, phraseOf } from '../../machine/legal';
import type { Task } from '../../state/next-task';
import type { PromptPart } from '../../words/prompt-parts';
import { part } from '../../words/prompt-parts';

/** The card is in its pocket. */
export function cardActs(here: Here): readonly Act[] {
  if (here.task.kind !== 'card') return [];
  return [act('cardPlaced', MAIN, (_, { channel, at }) => storeAct(here, at, { kind: 'cardPlaced', channel }))];
}

/** What to do with the card. */
export function cardPrompt({ context }: Here, { record }: Extract<Task, { kind: 'card' }>): readonly PromptPart[] {
  const ask = [
    part('todo', 'Print the data card and put it into its pocket.'),
    part('say', `Say ${phraseOf('cardPlaced')} when it is there.`),
  ];
  if (context.brief) return ask;
  return [part('what', `Signed. Last day of use: ${sayDate(record.nextDue)}.`), ...ask];
}
