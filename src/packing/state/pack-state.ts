/** What the facts of one pack amount to (`fold.ts` folds them). */
import type { FactSeq, PersonId, Serial, SightingId } from '../../domain/ids';
import type { CheckLine, FactBody } from '../../domain/fact';
import type { ComponentKind } from '../../domain/component/component';
import type { Instant } from '../../domain/instant';
import type { LogRecord } from '../../domain/log-record';
import type { Loft } from '../../domain/loft';
import { procedureById } from '../../domain/loft';
import type { PlainDate } from '../../domain/plain-date';
import type { Procedure } from '../../domain/procedure';
import type { Quantity } from '../../domain/quantity';
import type { CorrectableFact } from './correctable';

/** What has been done in one stage since it was last entered. */
export interface StageWork {
  readonly confirmed: boolean;
  readonly counted: number | null;
  readonly stows: number;
  /** The affirmed value that lay inside the band. */
  readonly measured: Quantity | null;
  readonly itemMoved: boolean;
  /** Who packed when something was last done in it; null where nothing has been. */
  readonly by: PersonId | null;
}

/** The result of the inspection of one component before it is packed. */
export type PartInspection = Pick<Extract<FactBody, { kind: 'inspected' }>, 'serial' | 'result' | 'finding'>;

export interface Release {
  readonly inspector: PersonId;
  readonly sighting: SightingId;
  readonly at: Instant;
}

export type ReturnBody = Extract<FactBody, { kind: 'holdReturned' }>;
export type StoppedBody = Extract<FactBody, { kind: 'stopped' }>;

export interface Reopening {
  readonly backTo: string;
  readonly by: PersonId | null;
}
export type JumpBody = Extract<FactBody, { kind: 'clockJumped' }>;
export type MeasuredBody = Extract<FactBody, { kind: 'measured' }>;

export interface Agreed {
  readonly assembly: string;
  readonly procedure: string;
  readonly revision: string;
  /** Null in packs of earlier versions. */
  readonly digest: string | null;
}

export interface Signature {
  /** Number of the fact. */
  readonly seq: FactSeq;
  readonly record: LogRecord;
}

export interface PackState {
  /** Person ids in the order in which they first packed. */
  readonly packers: readonly PersonId[];
  /** Who packs now; null before the pack is opened. */
  readonly packer: PersonId | null;
  readonly identified: ReadonlyMap<ComponentKind, Serial>;
  /** What was said of marks that named two items, or another one than the books. */
  readonly markConflicts: readonly string[];
  readonly agreed: Agreed | null;
  /** The procedure as it was when it was agreed; null where no fact holds it. */
  readonly frozen: Procedure | null;
  readonly checkIn: { readonly passed: boolean; readonly checks: readonly CheckLine[] } | null;
  /** What the packer found on each component before packing it. */
  readonly inspected: ReadonlyMap<ComponentKind, PartInspection>;
  /** The last time that the checks were made, at check-in or later: on which day, and what failed (`whatFailed`). */
  readonly checked: { readonly on: PlainDate; readonly failed: string } | null;
  /** The last recheck, where it failed: the pack must not go on. */
  readonly recheckFailed: readonly CheckLine[] | null;
  /** The latest day that this pack knows of. */
  readonly latestDay: PlainDate | null;
  readonly toolsOut: ReadonlyMap<string, number>;
  /** Counted before the container was closed over everything. */
  readonly toolsAccounted: ReadonlyMap<string, number>;
  readonly toolsBack: ReadonlyMap<string, number>;
  /** The counts of temporary items that stand. */
  readonly itemsAccounted: ReadonlySet<'closing' | 'signature'>;
  readonly stages: ReadonlyMap<string, StageWork>;
  readonly releases: ReadonlyMap<string, Release>;
  /** Temporary items that are in. A return voids a stage, but what it put in stays in until somebody takes it out. */
  readonly itemsIn: ReadonlySet<string>;
  readonly itemsPlaced: ReadonlyMap<string, number>;
  readonly itemsRemoved: ReadonlyMap<string, number>;
  /** The last value outside its band, until the stage is done or undone. */
  readonly outside: MeasuredBody | null;
  /** Every return, in order. */
  readonly returns: readonly ReturnBody[];
  /** Every stage that the packer reopened, in order. */
  readonly reopenings: readonly Reopening[];
  /** Every value outside its band, in order; a return does not make it unhappen. */
  readonly outsides: readonly MeasuredBody[];
  /** Everyone who has given a verdict in this pack: none of them may go on to pack it. */
  readonly verdictGivers: ReadonlySet<PersonId>;
  /** Stages at which an inspector has been called and has given no verdict since. */
  readonly called: ReadonlySet<string>;
  /** Sightings that have been used for something; each counts once. */
  readonly spent: ReadonlySet<SightingId>;
  /** Every jump of the clock during this pack, in order. */
  readonly jumps: readonly JumpBody[];
  readonly standingBySince: Instant | null;
  /** The latest moment at which somebody did something in this pack; refused scans aside. */
  readonly lastActAt: Instant | null;
  /** The fact that "correction" would take back; null for none. */
  readonly correctable: CorrectableFact | null;
  /** The signature that stands; a return at the final hold, and a hand-over, void it. */
  readonly signed: Signature | null;
  /** The card of that signature lies in its pocket. */
  readonly cardPlaced: boolean;
  readonly stopped: StoppedBody | null;
  /** Nothing can follow. */
  readonly ended: 'recorded' | 'stopped' | null;
}

/** A stage in which nothing has been done. */
const NO_WORK: StageWork = {
  confirmed: false,
  counted: null,
  stows: 0,
  measured: null,
  itemMoved: false,
  by: null,
};

/**
 * The procedure that this pack was agreed to follow: the one that its own facts hold, whatever the loft's files say by
 * now. Where they hold none, the loft's, if it is still that very one; null otherwise.
 */
export function procedureOf(loft: Loft, state: Pick<PackState, 'agreed' | 'frozen'>): Procedure | null {
  const { agreed, frozen } = state;
  if (agreed === null || frozen !== null) return frozen;
  const procedure = procedureById(loft, agreed.procedure);
  if (procedure?.revision !== agreed.revision) return null;
  return hasChanged(procedure, agreed) ? null : procedure;
}

/** Whether the loft's file holds something else under the same id and revision than was agreed. */
export function hasChanged(procedure: Procedure, agreed: Agreed): boolean {
  const { id, revision, digest } = procedure;
  const isSame = id === agreed.procedure && revision === agreed.revision;
  return isSame && agreed.digest !== null && digest !== agreed.digest;
}

/** What has been done in this stage. */
export function workOf(state: Pick<PackState, 'stages'>, stage: string): StageWork {
  return state.stages.get(stage) ?? NO_WORK;
}

/** Whether a hold stands open. A release by somebody who has packed, at whatever time, is none. */
export function isReleased(state: PackState, hold: string): boolean {
  const release = state.releases.get(hold);
  return release !== undefined && !state.packers.includes(release.inspector);
}
