/** The steps of a stop: for which cause, what is tagged, and the end. */
import type { Here } from '../../machine/context';
import { phraseOf } from '../../machine/legal';
import type { Detail } from '../../machine/view';
import type { PromptPart } from '../../words/prompt-parts';
import { numbered, part } from '../../words/prompt-parts';
import { sayAgain } from '../common-acts';
import { verdictScan } from '../hold/hold-scan';
import type { Step } from '../step';
import { CAUSE_WORDS, CAUSES, causeActs, componentActs, labelsOf, TAGGABLE, taggedWords } from './stop-work';

function stoppingDetail({ context }: Here, step: 'cause' | 'component'): Detail {
  return {
    screen: 'stopping',
    step,
    cause: context.stopping === null ? null : CAUSE_WORDS[context.stopping.cause],
    deadline: context.presence?.deadline ?? null,
  };
}

function causePrompt({ task }: Here): readonly PromptPart[] {
  const checks =
    task.kind === 'blocked' ? [part('say', `Say ${phraseOf('affirm')} for failed checks, or choose.`)] : [];
  return [part('todo', 'Stop and tag: for which cause?'), ...checks, numbered('choices', labelsOf(CAUSES))];
}

export const choosingCauseStep: Step = {
  acts: (here) => [...causeActs(here), sayAgain(here)],
  prompt: causePrompt,
  detail: (here) => stoppingDetail(here, 'cause'),
  scan: verdictScan,
};

function componentPrompt({ context }: Here): readonly PromptPart[] {
  const ends = context.stopping?.isVerdict === true ? [part('what', 'Damage ends this inspection and the pack.')] : [];
  return [...ends, part('todo', 'What is to be tagged?'), numbered('choices', labelsOf(TAGGABLE))];
}

export const choosingComponentStep: Step = {
  acts: (here) => [...componentActs(here), sayAgain(here)],
  prompt: componentPrompt,
  detail: (here) => stoppingDetail(here, 'component'),
  scan: verdictScan,
};

function stoppedDetail({ task }: Here<'stopped'>): Detail {
  const { reason, cause, component } = task.stopped;
  const why = cause === undefined ? null : CAUSE_WORDS[cause];
  return { screen: 'stopped', reason, cause: why, tagged: taggedWords(component) };
}

export const stoppedStep: Step<'stopped'> = {
  acts: (here) => [sayAgain(here)],
  prompt: ({ task }) => [
    part('what', 'This pack is stopped.'),
    part('todo', `Tag ${taggedWords(task.stopped.component)} as not fit for use.`),
    part('caution', 'Keep it apart from what is fit for use.'),
  ],
  detail: stoppedDetail,
};
