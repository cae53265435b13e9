/** The steps of a return: which finding, which point, and which stage to go back to. */
import { assert } from '../../../domain/assert';
import type { Here } from '../../machine/context';
import { phraseOf } from '../../machine/legal';
import type { PromptPart } from '../../words/prompt-parts';
import { numbered, part } from '../../words/prompt-parts';
import { sentence, words } from '../../words/words';
import { sayAgain } from '../common-acts';
import type { Step } from '../step';
import type { HoldTask } from './back-to';
import { backToOf } from './back-to';
import { findingsOf, pointsOf } from './findings';
import { holdDetail } from './hold-detail';
import { inspectorScan } from './hold-scan';
import { backToActs, chosenText, findingActs, pointActs } from './hold-work';

function holdOf({ task }: Here): HoldTask {
  assert(task.kind === 'hold', 'a return is chosen at a hold');
  return task;
}

const CHOOSING = { detail: holdDetail, scan: inspectorScan };

export const choosingFindingStep: Step = {
  ...CHOOSING,
  acts: (here) => [...findingActs(here), sayAgain(here)],
  prompt: (here) => {
    const { hold, stage } = holdOf(here);
    const findings = findingsOf(hold, stage).map(({ text }) => text);
    return [part('todo', 'Back for rework. Which finding?'), numbered('choices', findings)];
  },
};

export const choosingPointStep: Step = {
  ...CHOOSING,
  acts: (here) => [...pointActs(here), sayAgain(here)],
  prompt: (here) => {
    const { hold, stage } = holdOf(here);
    const points = pointsOf(hold, stage).map(({ text }) => text);
    return [part('todo', 'What is not so? A note can be written by hand.'), numbered('choices', [...points, 'Other'])];
  },
};

function stagePrompt(here: Here): readonly PromptPart[] {
  const { finding } = here.context;
  if (finding === null) return [];
  const back = backToOf(holdOf(here), finding);
  return [
    part('todo', words`${sentence(chosenText(finding))} Back to ${back.words}.`),
    part('say', `Say ${phraseOf('affirm')} for that stage, or go to stage and another number.`),
  ];
}

export const choosingStageStep: Step = {
  ...CHOOSING,
  acts: (here) => [...backToActs(here), sayAgain(here)],
  prompt: stagePrompt,
};
