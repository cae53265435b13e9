/** A revision-controlled procedure: what is needed, and the stages in their fixed order. */
import type { ComponentKind } from './component/component';
import type { HoldClass } from './person';
import type { PlainDate } from './plain-date';
import type { Quantity } from './quantity';
import type { StowPlan } from './stow/stow-plan';

export const STAGE_KINDS = ['confirm', 'count', 'stow', 'measure', 'place', 'remove'] as const;
export type StageKind = (typeof STAGE_KINDS)[number];

/** What may be counted aloud. The grammar's `count` rule knows the same words. */
export const COUNT_NOUNS = ['stows', 'tools', 'lines', 'gores', 'cells', 'wraps', 'ties', 'bands'] as const;
export type CountNoun = (typeof COUNT_NOUNS)[number];

export interface Finding {
  readonly id: string;
  readonly text: string;
  /** Id of the stage that a return for this finding goes back to unless the inspector says otherwise. */
  readonly backTo: string;
}

export interface Hold {
  readonly id: string;
  readonly title: string;
  readonly inspectorClass: HoldClass;
  /** What is to be inspected, one line each. */
  readonly inspect: readonly string[];
  readonly findings: readonly Finding[];
}

interface StageBase {
  readonly id: string;
  /** One-based position, as riggers count. */
  readonly number: number;
  readonly title: string;
  readonly steps: readonly string[];
  readonly caution: string | null;
  /** The hold that follows this stage; null for none. */
  readonly hold: Hold | null;
  /** The container is closed over what lies in it: before the first such stage everything is counted. */
  readonly closes?: boolean | undefined;
}

/** A value to be measured: a fixed nominal, or the remainder that a stow stage should leave. */
export type MeasureTarget =
  | { readonly from: 'nominal'; readonly nominal: Quantity; readonly under: Quantity; readonly over: Quantity }
  | { readonly from: 'remainder'; readonly stowStage: string };

export type Stage =
  | (StageBase & { readonly kind: 'confirm' })
  | (StageBase & { readonly kind: 'count'; readonly noun: CountNoun; readonly expected: number })
  | (StageBase & { readonly kind: 'stow'; readonly plan: StowPlan })
  | (StageBase & { readonly kind: 'measure'; readonly what: string; readonly target: MeasureTarget })
  | (StageBase & { readonly kind: 'place'; readonly item: string })
  | (StageBase & { readonly kind: 'remove'; readonly item: string });

export interface ToolLine {
  readonly id: string;
  readonly name: string;
  readonly count: number;
}

export interface TemporaryItem {
  readonly id: string;
  readonly name: string;
  /** The container is closed with it, so that it may be inside while a closing stage is worked. */
  readonly usedToClose?: boolean | undefined;
}

/** What the packer looks at on one component before it is packed, one line each. */
export interface InspectionList {
  readonly component: ComponentKind;
  readonly points: readonly string[];
}

export interface Procedure {
  readonly id: string;
  readonly title: string;
  readonly revision: string;
  readonly effectiveOn: PlainDate;
  /** Assembly models it applies to. */
  readonly models: readonly string[];
  readonly components: readonly { readonly kind: ComponentKind; readonly models: readonly string[] }[];
  readonly tools: readonly ToolLine[];
  readonly temporaryItems: readonly TemporaryItem[];
  /** The inspection before packing; a component without a list of its own is inspected by ours. */
  readonly inspection?: readonly InspectionList[] | undefined;
  /** Why nobody inspects anything during packing; null or absent where there are holds. */
  readonly noHolds?: string | null | undefined;
  readonly stages: readonly Stage[];
  /** The last look, at the signed pack with its card; absent only in what earlier versions stored. */
  readonly finalHold?: Hold | undefined;
  /** Invented, so that nobody may pack by it; absent is the same as false. */
  readonly demonstration?: boolean | undefined;
  /** SHA-256 in hex of all of the above as canonical JSON: put on where files are loaded, and part of no stored fact. */
  readonly digest?: string | undefined;
}

/** Where a return at the final hold leads when the pack itself is sound: only card and signature are made anew. */
export const BACK_TO_SIGNATURE = 'signature';

/** The stage with this id; null when there is none. */
export function stageOf(procedure: Procedure, id: string): Stage | null {
  return procedure.stages.find((stage) => stage.id === id) ?? null;
}

/** The holds between the stages, in order, each with the stage that it follows. */
export function holdsOf(procedure: Procedure): readonly { readonly hold: Hold; readonly stage: Stage }[] {
  return procedure.stages.flatMap((stage) => (stage.hold === null ? [] : [{ hold: stage.hold, stage }]));
}

/** All holds in order, the final one last; it is said to follow the last stage. */
export function allHoldsOf(procedure: Procedure): ReturnType<typeof holdsOf> {
  const { finalHold: hold } = procedure;
  const stage = procedure.stages.at(-1);
  return hold === undefined || stage === undefined ? holdsOf(procedure) : [...holdsOf(procedure), { hold, stage }];
}

/** The first stage that closes the container; null where none does. */
export function firstClosingStage(procedure: Procedure): Stage | null {
  return procedure.stages.find((stage) => stage.closes === true) ?? null;
}

/** Ids of the temporary items that must be in when stage `stageNumber` begins, in the order in which they went in. */
export function itemsExpectedBefore(procedure: Procedure, stageNumber: number): readonly string[] {
  const inside = new Set<string>();
  for (const stage of procedure.stages) {
    if (stage.number >= stageNumber) break;
    if (stage.kind === 'place') inside.add(stage.item);
    if (stage.kind === 'remove') inside.delete(stage.item);
  }
  return [...inside];
}
