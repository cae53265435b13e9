/** From a snapshot of the machine to what a person is shown and told. */
import type { Here } from './context';
import { hereOf } from './here';
import { stepAt } from '../steps';
import { assemblyById } from '../steps/identify/check-in';
import type { PackSnapshot } from './machine';
import { phaseOf } from './machine';
import { demonstrationLine } from '../words/notices';
import { isStageDone } from '../steps/stage/kinds/index';
import { procedureOf, workOf } from '../state/pack-state';
import { personName } from '../state/place';
import { part } from '../words/prompt-parts';
import { stepPrompt } from '../words/step-prompt';
import { plain } from '../words/words';
import type { PackView, StepPrompt } from './view';

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
  return stepPrompt(utterance, [part('notice', notice), ...stepAt(here).prompt()]);
}

/** The name of the assembly once agreed; null before. */
function assemblyName({ context }: Here): string | null {
  const id = context.state.agreed?.assembly;
  return id === undefined ? null : (assemblyById(context.loft, id)?.name ?? id);
}

/** Draws nothing and decides nothing: everything in it follows from the snapshot. */
export function viewOf(snapshot: PackSnapshot): PackView {
  const { context } = snapshot;
  const here = hereOf(phaseOf(snapshot), context);
  const step = stepAt(here);
  const storing = context.pending !== null;
  const { remark, readBack, state } = context;
  return {
    detail: step.detail(),
    prompt: promptOf(here, storing && context.utterance === 0),
    notice: remark === null ? null : { tone: remark.tone, text: remark.words.show },
    readBack: readBack === null ? null : { show: readBack.words.show },
    legal: storing ? [] : step.acts().map(({ legal }) => legal),
    scan: storing ? null : (step.scan()?.wanted ?? null),
    storing,
    pack: context.pack,
    packer: personName(context, state.packer),
    assembly: assemblyName(here),
    demonstration: demonstrationLine(procedureOf(context.loft, state)),
    progress: progressOf(here),
    ended: here.task.kind === 'recorded' || here.task.kind === 'stopped',
  };
}
