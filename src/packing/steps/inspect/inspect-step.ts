/** The inspection before packing, one component at a time. */
import { inspectionFindings, inspectionPoints } from '../../../domain/component/inspection';
import type { Here } from '../../machine/context';
import { phraseOf } from '../../machine/legal';
import type { Detail } from '../../machine/view';
import type { PromptPart } from '../../words/prompt-parts';
import { numbered, part } from '../../words/prompt-parts';
import { words } from '../../words/words';
import { readList } from '../common-acts';
import type { Step } from '../step';
import { usualActs } from '../usual-acts';
import { inspectActs, partWords } from './inspect-acts';

/** The points are on the screen, and read where somebody asks for them. */
function prompt({ context, task }: Here<'inspect'>): readonly PromptPart[] {
  const points = inspectionPoints(task.procedure, task.component);
  const ask = part(
    'say',
    words`Say ${phraseOf('nothingFound')} if all ${points.length} points are met, or finding and its number.`,
  );
  if (context.reading) return [part('lines', 'To be met:'), numbered('lines', points), ask];
  if (context.brief) return [ask];
  const begin =
    task.number > 1 ? [] : [part('todo', 'Before anything is packed, look over each part: dry, aired and clean.')];
  return [...begin, part('what', words`Part ${task.number} of ${task.of}. ${partWords(task)}.`), ask];
}

function detail({ task }: Here<'inspect'>): Detail {
  const { procedure, component, serial, number, of } = task;
  const findings = inspectionFindings(procedure, component);
  const points = inspectionPoints(procedure, component);
  const line = (label: string, index: number) => ({ number: index + 1, label });
  return {
    screen: 'inspection',
    component,
    serial,
    number,
    of,
    points: points.map(line),
    further: findings.map(line).slice(points.length),
  };
}

export const inspectStep: Step<'inspect'> = {
  acts: (here) => [...inspectActs(here), readList(here), ...usualActs(here)],
  prompt,
  detail,
};
