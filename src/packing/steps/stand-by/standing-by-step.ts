/** The step of standing by, over whichever task it interrupts. */
import type { Here } from '../../machine/context';
import { phraseOf } from '../../machine/legal';
import type { PromptPart } from '../../words/prompt-parts';
import { part } from '../../words/prompt-parts';
import { words } from '../../words/words';
import { personName, placeWords } from '../../state/place';
import { remaining, sayAgain } from '../common-acts';
import type { Step } from '../step';
import { resumeActs, standByScan } from './stand-by';
import { standByDetail } from './stand-by-detail';

function prompt({ task, context }: Here): readonly PromptPart[] {
  const resume = context.badgeWanted
    ? part('todo', `${personName(context, context.state.packer)}, it was a long break. Scan your badge to go on.`)
    : part('say', `Say ${phraseOf('resume')} to go on.`);
  const ask = [resume, part('todo', 'To take over, another rigger scans a badge.')];
  return context.brief ? ask : [part('what', words`Standing by at ${placeWords(task)}.`), ...ask];
}

export const standingByStep: Step = {
  acts: (here) => [...resumeActs(here), sayAgain(here), remaining(here)],
  prompt,
  detail: standByDetail,
  scan: (here) => ({ wanted: 'handover', take: (scan) => standByScan(here, scan) }),
};
