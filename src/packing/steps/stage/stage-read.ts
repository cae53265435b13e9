/** A stage read out: number, title, steps, caution. */
import type { Procedure, Stage } from '../../../domain/procedure';
import type { PromptPart } from '../../words/prompt-parts';
import { part } from '../../words/prompt-parts';
import { sentence, words } from '../../words/words';

/** What the procedure says of this stage. */
export function stageRead(stage: Stage, { stages }: Procedure): readonly PromptPart[] {
  return [
    part('what', words`Stage ${stage.number} of ${stages.length}. ${sentence(stage.title)}`),
    ...stage.steps.map((step) => part('lines', sentence(step))),
    ...(stage.caution === null ? [] : [part('caution', `Caution: ${sentence(stage.caution)}`)]),
  ];
}
