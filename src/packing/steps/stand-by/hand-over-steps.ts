/** The steps of a hand-over: the reason, the badge that lets the pack go, the look back. */
import type { Here } from '../../machine/context';
import type { PromptPart } from '../../words/prompt-parts';
import { numbered, part } from '../../words/prompt-parts';
import { words } from '../../words/words';
import { personName } from '../../state/place';
import { sayAgain } from '../common-acts';
import type { Step } from '../step';
import { labelsOf } from '../stop/stop-work';
import { backActs, handOverOf, lastReleased, leavingScan, lookBackActs, reasonActs, REASONS } from './hand-over';
import { resumeActs } from './stand-by';
import { standByDetail } from './stand-by-detail';

function takesOver(here: Here): string {
  return personName(here.context, handOverOf(here).to);
}

export const handOverReasonStep: Step = {
  acts: (here) => [...reasonActs(here), ...resumeActs(here), sayAgain(here)],
  prompt: (here) => [
    part('todo', `Hand-over to ${takesOver(here)}: for which reason?`),
    numbered('choices', labelsOf(REASONS)),
  ],
  detail: standByDetail,
};

function leavingPrompt({ context }: Here): readonly PromptPart[] {
  const from = personName(context, context.state.packer);
  return [
    part('todo', `${from}, scan your badge to let the pack go. Where ${from} cannot, a lead scans a badge instead.`),
  ];
}

export const handOverLeavingStep: Step = {
  acts: (here) => [...backActs(here), ...resumeActs(here), sayAgain(here)],
  prompt: leavingPrompt,
  detail: standByDetail,
  scan: (here) => ({ wanted: 'handover', take: (scan) => leavingScan(here, scan) }),
};

function lookPrompt(here: Here): readonly PromptPart[] {
  const look = lastReleased(here);
  if (look === null) return [];
  const { hold, stage } = look;
  return [
    part(
      'todo',
      words`${takesOver(here)}, look back: hold ${hold.title} after stage ${stage.number} stands as it was released. Is that right?`,
    ),
  ];
}

export const handOverLookStep: Step = {
  acts: (here) => [...lookBackActs(here), ...resumeActs(here), sayAgain(here)],
  prompt: lookPrompt,
  detail: standByDetail,
};
