/** The shape of a kind of stage: all that one kind is, in one place. */
import type { CheckLine, FactBody } from '../../../domain/fact';
import type { Procedure, Stage, StageKind } from '../../../domain/procedure';
import type { Here } from '../../machine/context';
import type { Act } from '../../machine/legal';
import type { Detail } from '../../machine/view';
import type { PackState, StageWork } from '../../state/pack-state';
import type { PromptPart } from '../../words/prompt-parts';
import type { Words } from '../../words/words';

/** The stage of each kind. */
export type Stages = { readonly [K in StageKind]: Extract<Stage, { readonly kind: K }> };

/** A pack that stands at a stage of kind K. */
export interface AtStage<K extends StageKind> {
  readonly here: Here;
  readonly procedure: Procedure;
  readonly stage: Stages[K];
}

type StageDetail = Extract<Detail, { screen: 'stage' }>;

/** What the screen draws beside title and steps; what is absent is not drawn. */
export type StageDrawing = Partial<Pick<StageDetail, 'stow' | 'measure' | 'count' | 'item'>>;

/** A value of the log record. */
export interface RecordedValue {
  readonly what: string;
  readonly value: string;
}

export interface StageForm<K extends StageKind> {
  /** What advances or ends the stage, the most expected first. */
  readonly acts: (at: AtStage<K>) => readonly Act[];
  /** What to do now, and what can be said. */
  readonly ask: (at: AtStage<K>) => readonly PromptPart[];
  /** Told once, on arrival, between the stage's own steps and what to do now. */
  readonly told?: (at: AtStage<K>) => Words;
  readonly drawing?: (at: AtStage<K>) => StageDrawing;
  /** Whether nothing more is owed in it, its hold aside. */
  readonly isDone: (stage: Stages[K], work: StageWork) => boolean;
  /** Why it cannot be begun; null where it can. */
  readonly fault?: (stage: Stages[K], state: PackState) => CheckLine | null;
  /** What is left of it, for "what remains". */
  readonly remains?: (at: AtStage<K>) => Words;
  /** What the log record tells of it. */
  readonly recorded?: (stage: Stages[K], work: StageWork) => RecordedValue;
}

/** What a fact was, in words that fit behind "take back". */
export type TakenBack<F extends FactBody['kind']> = (
  body: Extract<FactBody, { readonly kind: F }>,
  procedure: Procedure | null,
) => Words;
