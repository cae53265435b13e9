/** A revision-controlled procedure: what is needed, and the stages in their fixed order. */
import type { ComponentKind } from './component';
import type { HoldClass } from './person';
import type { PlainDate } from './plain-date';
import type { Quantity } from './quantity';
import type { StowPlan } from './stow-plan';

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
  readonly stages: readonly Stage[];
}
