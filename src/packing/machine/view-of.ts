/** From a snapshot of the machine to what a person is shown and told. */
import type { Here } from './context';
import { hereOf } from './context';
import { actsOf, scanWantedIn } from './decide';
import { assemblyName, detailOf } from './detail-of';
import type { PackSnapshot } from './machine';
import { phaseOf } from './machine';
import { demonstrationLine } from '../words/notices';
import { isStageDone, procedureOf, workOf } from '../state/pack-state';
import { personName } from '../state/place';
import { part } from '../words/prompt-parts';
import { promptParts } from '../words/prompts';
import { stepPrompt } from '../words/step-prompt';
import { plain } from '../words/words';
import type { LegalCommand, PackView, StepPrompt } from './view';

function progressOf({ context }: Here): PackView['progress'] {
  const { loft, state } = context;
  const procedure = procedureOf(loft, state);
  if (procedure === null || state.checkIn?.passed !== true) return null;
  const done = procedure.stages.filter((stage) => isStageDone(stage, workOf(state, stage.id)));
  return { done: done.length, of: procedure.stages.length };
}

/** Before anything is stored there is nothing to say yet. */
function promptOf(here: Here, isOpening: boolean): StepPrompt {
  const { remark, utterance } = here.context;
  if (isOpening) return stepPrompt(utterance, [part('what', 'One moment.')]);
  const notice = remark === null ? plain('') : { say: remark.words.say, show: '' };
  return stepPrompt(utterance, [part('notice', notice), ...promptParts(here)]);
}

function legalIn(here: Here): readonly LegalCommand[] {
  return actsOf(here).map(({ legal }) => legal);
}

/** Draws nothing and decides nothing: everything in it follows from the snapshot. */
export function viewOf(snapshot: PackSnapshot): PackView {
  const { context } = snapshot;
  const here = hereOf(phaseOf(snapshot), context);
  const storing = context.pending !== null;
  const { remark, readBack, state } = context;
  return {
    detail: detailOf(here),
    prompt: promptOf(here, storing && context.utterance === 0),
    notice: remark === null ? null : { tone: remark.tone, text: remark.words.show },
    readBack: readBack === null ? null : { show: readBack.words.show },
    legal: storing ? [] : legalIn(here),
    scan: storing ? null : scanWantedIn(here),
    storing,
    pack: context.pack,
    packer: personName(context, state.packer),
    assembly: assemblyName(here),
    demonstration: demonstrationLine(procedureOf(context.loft, state)),
    progress: progressOf(here),
    ended: here.task.kind === 'recorded' || here.task.kind === 'stopped',
  };
}
