/** What the machine keeps: the facts, what they amount to, and the little that is true only for the moment. */
import type { PackId, PersonId, Serial, SightingId } from '../../domain/ids';
import type { Fact, FactBody, FactDraft, HandOverReason, StopCause } from '../../domain/fact';
import type { Instant } from '../../domain/instant';
import type { Loft } from '../../domain/loft';
import type { PlainDate } from '../../domain/plain-date';
import type { Finding } from '../../domain/procedure';
import type { PackState } from '../state/pack-state';
import type { TaskKind, Tasks } from '../state/task';
import type { Notice } from './view';
import type { Words } from '../words/words';

/** Where a pack can rest and be spoken to; the machine's states carry these names. */
export const PHASES = [
  'identifying',
  'blocked',
  'inspectingPart',
  'countingToolsOut',
  'restoring',
  'working',
  'waitingForInspector',
  'inspecting',
  'choosingFinding',
  'choosingPoint',
  'choosingStage',
  'choosingCause',
  'choosingComponent',
  'countingToolsBack',
  'checkingTools',
  'checkingItems',
  'signing',
  'placingCard',
  'standingBy',
  'handOverReason',
  'handOverLeaving',
  'handOverLook',
  'readingBack',
  'recorded',
  'stopped',
] as const;
export type Phase = (typeof PHASES)[number];

/** A notice in both forms. */
export interface Remark {
  readonly tone: Notice['tone'];
  readonly words: Words;
}

/** A count that was affirmed and refused, with the step at which it was given. */
export interface Given {
  /** As `taskKey` names it. */
  readonly step: string;
  readonly count: number;
}

/** Something repeated that waits for "affirm". */
export interface ReadBack {
  readonly words: Words;
  /** Where "negative" goes back to. */
  readonly from: Phase;
  /** What "affirm" does. */
  readonly onAffirm:
    | {
        readonly kind: 'store';
        readonly by: PersonId | null;
        readonly bodies: readonly FactBody[];
        readonly remark: Remark | null;
      }
    | { readonly kind: 'refuse'; readonly remark: Remark; readonly given: Given };
}

/** A finding that was chosen, with what the inspector wrote beside it. */
export interface ChosenFinding extends Finding {
  readonly note: string | null;
}

/** A stop that is being put together: read back once the component is chosen too. */
export interface Stopping {
  readonly cause: StopCause;
  /** Damage that an inspector found at a hold: the return and the stop are then one act. */
  readonly isVerdict: boolean;
}

/** A hand-over under way: the badge of who takes over, the reason, the badge that lets go, the look back. */
export interface HandOver {
  readonly to: PersonId;
  readonly sighting: SightingId;
  readonly at: Instant;
  readonly reason: HandOverReason | null;
  readonly leaving: { readonly sighting: SightingId; readonly lead: PersonId | null } | null;
}

/** An inspector who has scanned a badge at a hold and may give a verdict until `deadline`. */
export interface Presence {
  readonly hold: string;
  readonly inspector: PersonId;
  readonly sighting: SightingId;
  readonly at: Instant;
  readonly deadline: Instant;
}

/** Drafts that are on their way to storage. */
export interface Pending {
  readonly drafts: readonly FactDraft[];
  /** Where it goes back to when they cannot be stored. */
  readonly from: Phase;
  /** Said once they are stored. */
  readonly remark: Remark | null;
  /** The inspector who is present once they are stored; every other presence ends. */
  readonly presence: Presence | null;
}

export interface PackContext {
  readonly loft: Loft;
  readonly pack: PackId;
  readonly openElsewhere: readonly Serial[];
  /** The last facts of other packs, in order. */
  readonly elsewhere: readonly Fact[];
  /** The latest day that those know of; null for none. */
  readonly journalDay: PlainDate | null;
  readonly facts: readonly Fact[];
  /** `foldFacts` of the facts, and of an opening that is owed. */
  readonly state: PackState;
  /** What has happened already and goes ahead of whatever is stored next. */
  readonly owed: readonly FactDraft[];
  readonly pending: Pending | null;
  readonly readBack: ReadBack | null;
  readonly presence: Presence | null;
  readonly finding: ChosenFinding | null;
  readonly stopping: Stopping | null;
  readonly handOver: HandOver | null;
  /** Standing by for so long that going on wants the packer's badge. */
  readonly badgeWanted: boolean;
  readonly given: Given | null;
  /** The inspection points are being read out. */
  readonly reading: boolean;
  readonly remark: Remark | null;
  /** Same step as before: say only what is new. */
  readonly brief: boolean;
  /** Counts what is to be said; a prompt is said anew when this has changed. */
  readonly utterance: number;
  /** Every sighting that has been delivered; an act of scanning counts once. */
  readonly seen: readonly SightingId[];
  /** A badge scanned before this moment was scanned for something else. */
  readonly freshFrom: Instant;
}

/** Where a pack stands: its phase, what the machine keeps, and the task that belongs to it. */
export interface Here<K extends TaskKind = TaskKind> {
  readonly phase: Phase;
  readonly context: PackContext;
  readonly task: Tasks[K];
}
