/** Signed: the card is printed and goes into its pocket, where the final inspection looks for it; then all is recorded. */
import { personById } from '../../../domain/loft';
import { sayDate } from '../../../domain/plain-date';
import type { Here } from '../../machine/context';
import { storeAct } from '../../machine/decision';
import { act, MAIN, phraseOf } from '../../machine/legal';
import type { FinalInspection } from '../../machine/view';
import { procedureOf } from '../../state/pack-state';
import { personName } from '../../state/place';
import type { PromptPart } from '../../words/prompt-parts';
import { part } from '../../words/prompt-parts';
import { sayAgain } from '../common-acts';
import type { Step } from '../step';
import { usualActs } from '../usual-acts';

function cardPrompt({ context, task }: Here<'card'>): readonly PromptPart[] {
  const ask = [
    part('todo', 'Print the data card and put it into its pocket.'),
    part('say', `Say ${phraseOf('cardPlaced')} when it is there.`),
  ];
  if (context.brief) return ask;
  return [part('what', `Signed. Last day of use: ${sayDate(task.record.nextDue)}.`), ...ask];
}

export const cardStep: Step<'card'> = {
  acts: (here) => [
    act('cardPlaced', MAIN, (_, { channel, at }) => storeAct(here, { at, body: { kind: 'cardPlaced', channel } })),
    ...usualActs(here),
  ],
  prompt: cardPrompt,
  detail: ({ task }) => ({ screen: 'card', record: task.record }),
};

function finalInspection({ context }: Here): FinalInspection | null {
  const { loft, state } = context;
  const hold = procedureOf(loft, state)?.finalHold;
  const release = hold === undefined ? undefined : state.releases.get(hold.id);
  if (hold === undefined || release === undefined) return null;
  const { inspector, at } = release;
  const certificate = personById(loft, inspector)?.certificate ?? 'not on record';
  return { title: hold.title, inspector: personName(context, inspector), certificate, at };
}

export const recordedStep: Step<'recorded'> = {
  acts: (here) => [sayAgain(here)],
  prompt: ({ task }) => [
    part('what', `This pack is closed. The log record is complete. Last day of use: ${sayDate(task.record.nextDue)}.`),
    part('todo', 'Print the log book page.'),
  ],
  detail: (here) => ({ screen: 'record', record: here.task.record, final: finalInspection(here) }),
};
