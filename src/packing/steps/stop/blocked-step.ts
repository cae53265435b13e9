/** Blocked: nothing talks past failed checks; the pack can be stopped, or go on once they pass. */
import type { Here } from '../../machine/context';
import type { Act } from '../../machine/legal';
import { phraseOf } from '../../machine/legal';
import type { PromptPart } from '../../words/prompt-parts';
import { part } from '../../words/prompt-parts';
import { sentence } from '../../words/words';
import { remaining, sayAgain, standBy } from '../common-acts';
import { reopenActs } from '../stage/reopen';
import type { Step } from '../step';
import { stopAndTag } from './stop-work';

function acts(here: Here<'blocked'>): readonly Act[] {
  return [
    stopAndTag(here),
    ...reopenActs(here),
    sayAgain(here),
    remaining(here),
    // Somebody else may be able to go on.
    ...(here.task.again === true ? [standBy(here)] : []),
  ];
}

function ask({ task, context }: Here<'blocked'>): readonly PromptPart[] {
  if (task.again === true) {
    const ways = `Say ${phraseOf('standBy')} for somebody to take over, or ${phraseOf('stopAndTag')} to end this pack.`;
    return [part('todo', 'Once the files are put right it goes on.'), part('say', ways)];
  }
  const rework = context.state.stages.size > 0 ? ', or say reopen stage and the number of a stage' : '';
  return [part('say', `Say ${phraseOf('stopAndTag')} to end this pack${rework}.`)];
}

function prompt(here: Here<'blocked'>): readonly PromptPart[] {
  const { task, context } = here;
  const what =
    context.state.checkIn?.passed === true ? 'This pack must not go on.' : 'This assembly must not be packed.';
  if (context.brief) return [part('what', what), ...ask(here)];
  const failed = task.checks.filter((line) => !line.passed);
  return [
    part('what', `Stop. ${what}`),
    ...failed.map((line) => part('lines', `${line.label}: ${sentence(line.detail)}`)),
    part('caution', 'Keep the assembly apart from what is fit for use.'),
    ...ask(here),
  ];
}

export const blockedStep: Step<'blocked'> = {
  acts,
  prompt,
  detail: ({ task }) => ({ screen: 'blocked', checks: task.checks }),
};
