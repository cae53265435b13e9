/** Signed: the card is printed and goes into its pocket, where the final inspection looks for it. */
import { sayDate } from '../../../domain/plain-date';
import type { Here } from '../../machine/context';
import { storeAct } from '../../machine/decision';
import type { Act } from '../../machine/legal';
import { act, MAIN, phraseOf } from '../../machine/legal';
import type { Task } from '../../state/next-task';
import type { Words } from '../../words/words';
import { joinWords, plain } from '../../words/words';

/** The card is in its pocket. */
export function cardActs(here: Here): readonly Act[] {
  if (here.task.kind !== 'card') return [];
  return [act('cardPlaced', MAIN, (_, { channel, at }) => storeAct(here, at, { kind: 'cardPlaced', channel }))];
}

/** What to do with the card. */
export function cardPrompt({ context }: Here, { record }: Extract<Task, { kind: 'card' }>): Words {
  const ask = plain(`Print the data card and put it into its pocket. Say ${phraseOf('cardPlaced')} when it is there.`);
  if (context.brief) return ask;
  return joinWords([plain(`Signed. Last day of use: ${sayDate(record.nextDue)}.`), ask]);
}
