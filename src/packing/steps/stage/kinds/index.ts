/** Every kind of stage. One that is missing does not compile. */
import type { CheckLine } from '../../../../domain/fact';
import type { Stage, StageKind } from '../../../../domain/procedure';
import type { Here } from '../../../machine/context';
import type { Act } from '../../../machine/legal';
import type { PackState, StageWork } from '../../../state/pack-state';
import type { PromptPart } from '../../../words/prompt-parts';
import type { Words } from '../../../words/words';
import { plain } from '../../../words/words';
import type { AtStage, RecordedValue, StageDrawing, StageForm, Stages } from '../stage-kind';
import { confirmForm } from './confirm';
import { countForm } from './count';
import { placeForm, removeForm } from './items';
import { measureForm } from './measure';
import { stowForm } from './stow/stow';

const STAGE_FORMS: { readonly [K in StageKind]: StageForm<K> } = {
  confirm: confirmForm,
  count: countForm,
  stow: stowForm,
  measure: measureForm,
  place: placeForm,
  remove: removeForm,
};

/** The kind of a stage at the place where a pack stands. */
interface StageHere {
  readonly acts: () => readonly Act[];
  readonly ask: () => readonly PromptPart[];
  readonly told: () => Words;
  readonly drawing: () => StageDrawing;
  readonly remains: () => Words;
}

function standing<K extends StageKind>(kind: K, at: AtStage<K>): StageHere {
  const form = STAGE_FORMS[kind];
  return {
    acts: () => form.acts(at),
    ask: () => form.ask(at),
    told: () => form.told?.(at) ?? plain(''),
    drawing: () => form.drawing?.(at) ?? {},
    remains: () => form.remains?.(at) ?? plain(''),
  };
}

/** The stage that a pack stands at. */
export function stageAt(here: Here<'stage'>): StageHere {
  const { procedure, stage } = here.task;
  return standing(stage.kind, { here, procedure, stage });
}

/** What the rules of a kind say of a stage, wherever the pack stands. */
interface StageRules {
  readonly isDone: (work: StageWork) => boolean;
  readonly fault: (state: PackState) => CheckLine | null;
  readonly recorded: (work: StageWork) => RecordedValue | null;
}

function rules<K extends StageKind>(kind: K, stage: Stages[K]): StageRules {
  const form = STAGE_FORMS[kind];
  return {
    isDone: (work) => form.isDone(stage, work),
    fault: (state) => form.fault?.(stage, state) ?? null,
    recorded: (work) => form.recorded?.(stage, work) ?? null,
  };
}

/** Whether nothing more is owed in this stage, its hold aside. */
export function isStageDone(stage: Stage, work: StageWork): boolean {
  return rules(stage.kind, stage).isDone(work);
}

/** Why this stage cannot be begun; null where it can. */
export function faultBefore(stage: Stage, state: PackState): CheckLine | null {
  return rules(stage.kind, stage).fault(state);
}

/** What the log record tells of this stage; null for nothing. */
export function recordedOf(stage: Stage, work: StageWork): RecordedValue | null {
  return rules(stage.kind, stage).recorded(work);
}
