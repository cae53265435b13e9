/** The steps of a hold: waiting for the badge of an inspector, and the verdict while one is present. */
import { assert } from '../../../domain/assert';
import type { Hold } from '../../../domain/procedure';
import { holdsOf } from '../../../domain/procedure';
import type { Here } from '../../machine/context';
import { phraseOf } from '../../machine/legal';
import type { PromptPart } from '../../words/prompt-parts';
import { part } from '../../words/prompt-parts';
import { sentence, words } from '../../words/words';
import { readList, remaining, sayAgain, standBy } from '../common-acts';
import type { Step } from '../step';
import { stopAndTag } from '../stop/stop-work';
import { usualActs } from '../usual-acts';
import { holdDetail } from './hold-detail';
import { inspectorScan } from './hold-scan';
import { inspectingActs } from './hold-work';

const LOOK_FIRST = 'Waiting for the inspector: look first, then scan your badge.';

function pointsRead({ inspect }: Hold): readonly PromptPart[] {
  return [part('lines', 'To be inspected:'), ...inspect.map((one) => part('lines', sentence(one)))];
}

function waitingPrompt({ task, context }: Here<'hold'>): readonly PromptPart[] {
  if (context.reading) return [...pointsRead(task.hold), part('todo', LOOK_FIRST)];
  if (context.brief) return [part('todo', LOOK_FIRST)];
  const holds = holdsOf(task.procedure);
  const number = holds.findIndex((one) => one.hold.id === task.hold.id) + 1;
  const what = task.final
    ? words`Final inspection: ${sentence(task.hold.title)}`
    : words`Inspection hold ${number} of ${holds.length}: ${sentence(task.hold.title)}`;
  return [
    part('what', what),
    part('todo', 'Inspector.'),
    part('say', `Say ${phraseOf('readList')} to hear the points.`),
  ];
}

export const holdStep: Step<'hold'> = {
  acts: (here) => [readList(here), ...usualActs(here)],
  prompt: waitingPrompt,
  detail: holdDetail,
  scan: inspectorScan,
};

function verdictPrompt({ task, context }: Here): readonly PromptPart[] {
  assert(task.kind === 'hold', 'a verdict is given at a hold');
  const seconds = context.loft.settings.verdictSeconds;
  const ask = part(
    'say',
    words`Say ${phraseOf('releaseHold')} or ${phraseOf('returnHold')} within ${seconds} seconds of the scan.`,
  );
  return context.reading ? [...pointsRead(task.hold), ask] : [ask];
}

export const inspectingStep: Step = {
  acts: (here) => [
    ...inspectingActs(here),
    readList(here),
    sayAgain(here),
    remaining(here),
    standBy(here),
    stopAndTag(here),
  ],
  prompt: verdictPrompt,
  detail: holdDetail,
  scan: inspectorScan,
};
