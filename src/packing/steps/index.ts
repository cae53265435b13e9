/** Every step, by the task that it is for or by the phase that lies over a task. A missing one does not compile. */
import type { Here, Phase } from '../machine/context';
import type { PHASE_OF_TASK } from '../machine/here';
import type { Act } from '../machine/legal';
import type { Detail } from '../machine/view';
import type { TaskKind } from '../state/task';
import type { PromptPart } from '../words/prompt-parts';
import { cardStep, recordedStep } from './close-up/card-step';
import { choosingFindingStep, choosingPointStep, choosingStageStep } from './hold/choosing-steps';
import { holdStep, inspectingStep } from './hold/hold-step';
import { identifyStep } from './identify/identify-step';
import { inspectStep } from './inspect/inspect-step';
import { pendingReadBack, readBackStep } from './read-back/read-back';
import { signStep } from './sign/sign-step';
import { restoreStep } from './stage/restore-step';
import { stageStep } from './stage/stage-step';
import { handOverLeavingStep, handOverLookStep, handOverReasonStep } from './stand-by/hand-over-steps';
import { standingByStep } from './stand-by/standing-by-step';
import type { ScanTaker, Step } from './step';
import { blockedStep } from './stop/blocked-step';
import { choosingCauseStep, choosingComponentStep, stoppedStep } from './stop/stop-steps';
import { itemsStep } from './tools/items-step';
import { toolBackStep, toolCheckStep, toolOutStep } from './tools/tool-steps';

const TASK_STEPS: { readonly [K in TaskKind]: Step<K> } = {
  identify: identifyStep,
  blocked: blockedStep,
  inspect: inspectStep,
  toolOut: toolOutStep,
  restore: restoreStep,
  stage: stageStep,
  hold: holdStep,
  toolCheck: toolCheckStep,
  items: itemsStep,
  toolBack: toolBackStep,
  sign: signStep,
  card: cardStep,
  recorded: recordedStep,
  stopped: stoppedStep,
};

/** Every phase in which something else lies over the task. */
type OverlaidPhase = Exclude<Phase, (typeof PHASE_OF_TASK)[TaskKind]>;

const PHASE_STEPS: Readonly<Record<OverlaidPhase, Step>> = {
  inspecting: inspectingStep,
  choosingFinding: choosingFindingStep,
  choosingPoint: choosingPointStep,
  choosingStage: choosingStageStep,
  choosingCause: choosingCauseStep,
  choosingComponent: choosingComponentStep,
  standingBy: standingByStep,
  handOverReason: handOverReasonStep,
  handOverLeaving: handOverLeavingStep,
  handOverLook: handOverLookStep,
  // What is read back is drawn over the step that it came from.
  readingBack: { ...readBackStep, detail: (here) => stepAt({ ...here, phase: pendingReadBack(here).from }).detail() },
};

/** A step at the place where a pack stands. */
export interface StepHere {
  readonly acts: () => readonly Act[];
  readonly prompt: () => readonly PromptPart[];
  readonly detail: () => Detail;
  readonly scan: () => ScanTaker | null;
}

function standing<K extends TaskKind>(step: Step<K>, here: Here<K>): StepHere {
  return {
    acts: () => step.acts(here),
    prompt: () => step.prompt(here),
    detail: () => step.detail(here),
    scan: () => step.scan?.(here) ?? null,
  };
}

function ofTask<K extends TaskKind>(kind: K, here: Here<K>): StepHere {
  return standing(TASK_STEPS[kind], here);
}

function isOverlaid(phase: Phase): phase is OverlaidPhase {
  return Object.hasOwn(PHASE_STEPS, phase);
}

/** The step that a pack is in. */
export function stepAt(here: Here): StepHere {
  return isOverlaid(here.phase) ? standing(PHASE_STEPS[here.phase], here) : ofTask(here.task.kind, here);
}
