/** What is said in a stage. */
import { isToldBefore } from '../../words/blind';
import type { Here } from '../../machine/context';
import type { Procedure, Stage } from '../../../domain/procedure';
import { phraseOf } from '../../machine/legal';
import { bandOf } from './measure-work';
import type { Task } from '../../state/next-task';
import { mayEnd, stowLedger } from './stow-work';
import { itemName } from '../../state/place';
import type { StowLedgerView } from '../../machine/view';
import type { PromptPart } from '../../words/prompt-parts';
import { part } from '../../words/prompt-parts';
import type { Words } from '../../words/words';
import { capital, countWords, joinWords, plain, sentence, words, wrapWords } from '../../words/words';

type StageTask = Extract<Task, { kind: 'stage' }>;
type RestoreTask = Extract<Task, { kind: 'restore' }>;

/** What to do now. */
function askOf(here: Here, { stage, procedure }: StageTask): readonly PromptPart[] {
  const { context } = here;
  switch (stage.kind) {
    case 'confirm':
      return [part('say', `Say ${phraseOf('stageComplete')} when it is done.`)];
    case 'count':
      return [
        ...(isToldBefore(here) ? [part('todo', words`${stage.expected} expected.`)] : []),
        part('say', words`Say the number and the word ${stage.noun}.`),
      ];
    case 'stow':
      return stowOn(stowLedger(context.state, stage), mayEnd(context.state, stage));
    case 'measure': {
      const { expected } = bandOf(procedure, context.state, stage);
      const told = isToldBefore(here) ? words` ${expected} expected.` : plain('');
      return [part('todo', words`${capital(stage.what)}:${told} measure, and say the length with its unit.`)];
    }
    case 'place':
      return [
        part('todo', `Put in the ${itemName(procedure, stage.item)}.`),
        part('say', `Say ${phraseOf('itemPlaced')} when it is in.`),
      ];
    case 'remove':
      return [
        part('todo', `Take out the ${itemName(procedure, stage.item)}.`),
        part('say', `Say ${phraseOf('itemRemoved')} when it is out.`),
      ];
  }
}

/** How far the stowing is, and where the next stow lies. */
function stowOn(
  { done, planned, least, nextSide, nextLoop }: StowLedgerView,
  mayEndNow: boolean,
): readonly PromptPart[] {
  if (nextSide === null) {
    return [
      part('todo', words`All ${countWords(planned, 'stows')} are done.`),
      part('say', `Say ${phraseOf('stageComplete')} to go on.`),
    ];
  }
  const far =
    least === undefined
      ? words`${done} of ${countWords(planned, 'stows')}.`
      : words`${countWords(done, 'stows')}, ${least} to ${planned} may be made.`;
  const next =
    nextLoop === undefined ? words`Next, ${nextSide}.` : words`Next, ${nextSide}, loop ${nextLoop} from the centre.`;
  const end = mayEndNow ? [part('say', `Say ${phraseOf('stageComplete')} if enough is stowed.`)] : [];
  return [part('todo', far), ...end, part('todo', next)];
}

/**
 * Stowing is told how long, how often the band goes round, and whose left and right are meant, once. A wanted remainder
 * is what to do and is told; one that only follows is told before it is measured to nobody but who may know.
 */
function howToStow(here: Here, { stage }: StageTask): Words {
  if (stage.kind !== 'stow') return plain('');
  const { bight, wraps, planned, least, wanted, remainder, leadIn, viewpoint } = stowLedger(here.context.state, stage);
  const made = words`${countWords(planned, 'stows')} of ${bight}, ${wrapWords(wraps)}.`;
  const follows = isToldBefore(here) && remainder !== null ? words`${remainder} should remain.` : plain('');
  return joinWords([
    leadIn === undefined ? plain('') : words`Lay ${leadIn} from the links to the first stow.`,
    least === undefined ? made : words`${least} to ${made}`,
    wanted === undefined ? follows : words`Stow until ${wanted.lowest} to ${wanted.highest} remain.`,
    plain(viewpoint === undefined ? '' : `Left and right are meant ${viewpoint}.`),
  ]);
}

/** The stage as a whole on arrival; only what to do now while it goes on. */
export function stagePrompt(here: Here, task: StageTask): readonly PromptPart[] {
  const ask = askOf(here, task);
  if (here.context.brief) return ask;
  const { stage, procedure } = task;
  return [...stageRead(stage, procedure), part('todo', howToStow(here, task)), ...ask];
}

/** A stage read out: number, title, steps, caution. */
export function stageRead(stage: Stage, { stages }: Procedure): readonly PromptPart[] {
  return [
    part('what', words`Stage ${stage.number} of ${stages.length}. ${sentence(stage.title)}`),
    ...stage.steps.map((step) => part('lines', sentence(step))),
    ...(stage.caution === null ? [] : [part('caution', `Caution: ${sentence(stage.caution)}`)]),
  ];
}

/** A temporary item must be put right before the work goes on. */
export function restorePrompt(here: Here, { item, direction, before }: RestoreTask): readonly PromptPart[] {
  const ask =
    direction === 'out'
      ? [part('todo', `Take out the ${item.name}.`), part('say', `Say ${phraseOf('itemRemoved')} when it is out.`)]
      : [part('todo', `Put back the ${item.name}.`), part('say', `Say ${phraseOf('itemPlaced')} when it is in.`)];
  if (here.context.brief || before === null) return ask;
  return [part('todo', words`Before stage ${before.number}, ${sentence(before.title)}`), ...ask];
}
