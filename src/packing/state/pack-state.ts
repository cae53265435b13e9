/** What the facts of one pack amount to. Folded from scratch each time, so that a restart cannot differ from the run. */
import type { Fact, FactBody, CheckLine } from '../../domain/fact';
import { endsPack } from '../../domain/fact';
import type { ComponentKind } from '../../domain/component';
import type { Instant } from '../../domain/instant';
import { dateOf, epochMs } from '../../domain/instant';
import type { LogRecord } from '../../domain/log-record';
import type { Loft } from '../../domain/loft';
import type { Procedure, Stage } from '../../domain/procedure';
import { procedureById } from '../../domain/loft';
import type { PlainDate } from '../../domain/plain-date';
import { BACK_TO_SIGNATURE, firstClosingStage, stageOf } from '../../domain/procedure';
import type { Quantity } from '../../domain/quantity';
import { leastStows } from '../../domain/stow-plan';
import { lastCorrectable, takenBackBy } from './correctable';
import { dayOfFact, laterDay, whatFailed } from './days';

/** What has been done in one stage since it was last entered. */
export interface StageWork {
  readonly confirmed: boolean;
  readonly counted: number | null;
  readonly stows: number;
  /** The affirmed value that lay inside the band. */
  readonly measured: Quantity | null;
  readonly itemMoved: boolean;
  /** Who packed when something was last done in it; null where nothing has been. */
  readonly by: string | null;
}

/** What came of looking over one component before it is packed. */
export type Looked = Pick<Extract<FactBody, { kind: 'inspected' }>, 'serial' | 'result' | 'finding'>;

export interface Release {
  readonly inspector: string;
  readonly sighting: string;
  readonly at: Instant;
}

export type ReturnBody = Extract<FactBody, { kind: 'holdReturned' }>;
export type StoppedBody = Extract<FactBody, { kind: 'stopped' }>;

export interface Reopening {
  readonly backTo: string;
  readonly by: string | null;
}
export type JumpBody = Extract<FactBody, { kind: 'clockJumped' }>;
export type MeasuredBody = Extract<FactBody, { kind: 'measured' }>;

export interface Agreed {
  readonly assembly: string;
  readonly procedure: string;
  readonly revision: string;
  /** Absent in packs of earlier versions. */
  readonly digest?: string | undefined;
}

export interface Signature {
  /** Number of the fact. */
  readonly seq: number;
  readonly record: LogRecord;
}

export interface PackState {
  /** Person ids in the order in which they first packed. */
  readonly packers: readonly string[];
  /** Who packs now; null before the pack is opened. */
  readonly packer: string | null;
  readonly identified: ReadonlyMap<ComponentKind, string>;
  /** What was said of marks that named two items, or another one than the books. */
  readonly markConflicts: readonly string[];
  readonly agreed: Agreed | null;
  /** The procedure as it was when it was agreed; null where no fact holds it. */
  readonly frozen: Procedure | null;
  readonly checkIn: { readonly passed: boolean; readonly checks: readonly CheckLine[] } | null;
  /** What the packer found on each component before packing it. */
  readonly inspected: ReadonlyMap<ComponentKind, Looked>;
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
  readonly verdictGivers: ReadonlySet<string>;
  /** Stages at which an inspector has been called and has given no verdict since. */
  readonly called: ReadonlySet<string>;
  /** Sightings that have been used for something; each counts once. */
  readonly spent: ReadonlySet<string>;
  /** Every jump of the clock during this pack, in order. */
  readonly jumps: readonly JumpBody[];
  readonly standingBySince: Instant | null;
  /** The latest moment at which somebody did something in this pack; refused scans aside. */
  readonly lastActAt: Instant | null;
  /** The fact that "correction" would take back; null for none. */
  readonly correctable: Fact | null;
  /** The signature that stands; a return at the final hold, and a hand-over, void it. */
  readonly signed: Signature | null;
  /** The card of that signature lies in its pocket. */
  readonly cardPlaced: boolean;
  readonly stopped: StoppedBody | null;
  /** Nothing can follow. */
  readonly ended: 'recorded' | 'stopped' | null;
}

type Folding = {
  -readonly [K in keyof PackState]: PackState[K] extends ReadonlyMap<infer Key, infer Value>
    ? Map<Key, Value>
    : PackState[K] extends ReadonlySet<infer Item>
      ? Set<Item>
      : PackState[K];
};

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
  return isSame && agreed.digest !== undefined && digest !== agreed.digest;
}

/** The first is what was agreed; files that come later change it no more. */
function freeze(state: Folding, procedure: Procedure | null): void {
  const { agreed } = state;
  if (state.frozen !== null || agreed === null || procedure === null) return;
  if (procedure.id === agreed.procedure && procedure.revision === agreed.revision) state.frozen = procedure;
}

/** What has been done in this stage. */
export function workOf(state: Pick<PackState, 'stages'>, stage: string): StageWork {
  return state.stages.get(stage) ?? NO_WORK;
}

/** Whether nothing more is owed in this stage, its hold aside. */
export function isStageDone(stage: Stage, work: StageWork): boolean {
  switch (stage.kind) {
    case 'confirm':
      return work.confirmed;
    case 'count':
      return work.counted === stage.expected;
    case 'stow':
      return work.confirmed && work.stows >= leastStows(stage.plan) && work.stows <= stage.plan.stows;
    case 'measure':
      return work.measured !== null;
    case 'place':
    case 'remove':
      return work.itemMoved;
  }
}

/** Whether a hold stands open. A release by somebody who has packed, at whatever time, is none. */
export function isReleased(state: PackState, hold: string): boolean {
  const release = state.releases.get(hold);
  return release !== undefined && !state.packers.includes(release.inspector);
}

function blank(): Folding {
  return {
    packers: [],
    packer: null,
    identified: new Map(),
    markConflicts: [],
    agreed: null,
    frozen: null,
    checkIn: null,
    inspected: new Map(),
    checked: null,
    recheckFailed: null,
    latestDay: null,
    toolsOut: new Map(),
    toolsAccounted: new Map(),
    toolsBack: new Map(),
    itemsAccounted: new Set(),
    stages: new Map(),
    releases: new Map(),
    itemsIn: new Set(),
    itemsPlaced: new Map(),
    itemsRemoved: new Map(),
    outside: null,
    returns: [],
    reopenings: [],
    outsides: [],
    verdictGivers: new Set(),
    called: new Set(),
    spent: new Set(),
    jumps: [],
    standingBySince: null,
    lastActAt: null,
    correctable: null,
    signed: null,
    cardPlaced: false,
    stopped: null,
    ended: null,
  };
}

/** Folds a pack's facts, in their order. Unknown ids in facts have no effect; they never count as done. */
export function foldFacts(loft: Loft, facts: readonly Fact[]): PackState {
  const state = blank();
  const takenBack = takenBackBy(facts);
  for (const fact of facts) {
    state.latestDay = laterDay(state.latestDay, dayOfFact(fact));
    seeActs(state, fact);
    if (!takenBack.has(fact.seq)) apply(loft, state, fact);
  }
  state.correctable = lastCorrectable(facts, takenBack);
  return state;
}

/** By the later clock: one that was set back makes no break shorter. */
function seeActs(state: Folding, { at, by, body }: Fact): void {
  if (by === null || body.kind === 'scanRefused') return;
  if (state.lastActAt === null || epochMs(at) > epochMs(state.lastActAt)) state.lastActAt = at;
}

function apply(loft: Loft, state: Folding, fact: Fact): void {
  const { body } = fact;
  switch (body.kind) {
    case 'packOpened':
      return becomePacker(state, body.packer);
    case 'handedOver':
      state.spent.add(body.sighting);
      if (body.fromSighting !== undefined) state.spent.add(body.fromSighting);
      // Whoever packs now signs for all of it.
      unsign(state);
      return becomePacker(state, body.to);
    case 'componentIdentified':
      state.identified.set(body.component, body.serial);
      return;
    case 'assemblyAgreed':
      state.agreed = {
        assembly: body.assembly,
        procedure: body.procedure,
        revision: body.revision,
        ...(body.digest === undefined ? {} : { digest: body.digest }),
      };
      return;
    case 'procedureInForce':
      return freeze(state, body.procedure);
    case 'checkInPassed':
    case 'checkInFailed':
    case 'recheckPassed':
    case 'recheckFailed':
      return takeChecks(state, fact, body);
    case 'toolIssued':
      return void state.toolsOut.set(body.tool, body.count);
    case 'inspectorCalled':
      state.called.add(body.stage);
      return;
    case 'inspectorPresent':
      state.spent.add(body.sighting);
      return;
    case 'holdReleased':
      return release(loft, state, { ...body, at: fact.at });
    case 'holdReturned':
      state.verdictGivers.add(body.inspector);
      state.returns = [...state.returns, body];
      return goBack(loft, state, body.backTo);
    case 'corrected':
      state.outside = null;
      return;
    case 'stoodBy':
      state.standingBySince = fact.at;
      return;
    case 'restarted':
      if (body.standsBy === true) state.standingBySince ??= fact.at;
      return;
    case 'resumed':
      if (body.sighting !== undefined) state.spent.add(body.sighting);
      state.standingBySince = null;
      return;
    case 'scanRefused':
      if (body.reason === 'marks-disagree') state.markConflicts = [...state.markConflicts, body.detail];
      return;
    case 'clockJumped':
      state.jumps = [...state.jumps, body];
      return;
    case 'verdictLapsed':
    case 'peopleInForce':
    case 'tagCleared':
    case 'restored':
      return;
    case 'inspected':
      state.inspected.set(body.component, { serial: body.serial, result: body.result, finding: body.finding });
      return;
    default:
      return applyEnd(loft, state, { ...fact, body });
  }
}

type EndKind =
  'toolAccounted' | 'itemsAccounted' | 'toolReturned' | 'reopened' | 'signed' | 'cardPlaced' | 'packClosed' | 'stopped';

/** Counts, rework, and what ends a pack. */
function applyEnd(
  loft: Loft,
  state: Folding,
  { seq, by, body }: Fact & { readonly body: WorkBody | Extract<FactBody, { kind: EndKind }> },
): void {
  switch (body.kind) {
    case 'toolAccounted':
      state.toolsAccounted.set(body.tool, body.count);
      return;
    case 'itemsAccounted':
      state.itemsAccounted.add(body.before);
      return;
    case 'toolReturned':
      state.toolsBack.set(body.tool, body.count);
      return;
    case 'reopened':
      state.reopenings = [...state.reopenings, { backTo: body.backTo, by: by }];
      return goBack(loft, state, body.backTo);
    case 'signed':
      state.spent.add(body.sighting);
      state.signed = { seq: seq, record: body.record };
      if (endsPack(body)) state.ended = 'recorded';
      return;
    case 'cardPlaced':
      state.cardPlaced = state.signed !== null;
      return;
    case 'packClosed':
      if (isClosedBy(loft, state, body)) state.ended = 'recorded';
      return;
    case 'stopped':
      state.stopped = body;
      state.ended = 'stopped';
      return;
    default:
      return applyWork(state, body);
  }
}

type WorkBody = Extract<
  FactBody,
  { kind: 'stageConfirmed' | 'counted' | 'stowed' | 'measured' | 'itemPlaced' | 'itemRemoved' }
>;

function applyWork(state: Folding, body: WorkBody): void {
  const change = (stage: string, work: Partial<StageWork>): void => {
    state.stages.set(stage, { ...workOf(state, stage), ...work, by: state.packer });
  };
  switch (body.kind) {
    case 'stageConfirmed':
      return change(body.stage, { confirmed: true });
    case 'counted':
      return change(body.stage, { counted: body.count });
    case 'stowed':
      return change(body.stage, { stows: workOf(state, body.stage).stows + body.count });
    case 'measured':
      state.outside = body.within ? null : body;
      if (body.within) change(body.stage, { measured: body.value });
      else state.outsides = [...state.outsides, body];
      return;
    case 'itemPlaced':
      state.itemsIn.add(body.item);
      state.itemsPlaced.set(body.item, (state.itemsPlaced.get(body.item) ?? 0) + 1);
      if (body.stage !== null) change(body.stage, { itemMoved: true });
      return;
    case 'itemRemoved':
      state.itemsIn.delete(body.item);
      state.itemsRemoved.set(body.item, (state.itemsRemoved.get(body.item) ?? 0) + 1);
      if (body.stage !== null) change(body.stage, { itemMoved: true });
      return;
  }
}

type ChecksBody = Extract<FactBody, { kind: 'checkInPassed' | 'checkInFailed' | 'recheckPassed' | 'recheckFailed' }>;

function takeChecks(state: Folding, { at }: Fact, { kind, checks }: ChecksBody): void {
  const passed = (kind === 'checkInPassed' || kind === 'recheckPassed') && checks.every((line) => line.passed);
  if (kind === 'checkInPassed' || kind === 'checkInFailed') state.checkIn = { passed, checks };
  else state.recheckFailed = passed ? null : checks;
  state.checked = { on: state.latestDay ?? dateOf(at), failed: whatFailed(checks) };
}

function becomePacker(state: Folding, packer: string): void {
  state.packer = packer;
  if (!state.packers.includes(packer)) state.packers = [...state.packers, packer];
}

/** Fails closed: a release that does not follow its own inspector's scan, or its own finished work, opens nothing. */
function release(loft: Loft, state: Folding, by: Extract<FactBody, { kind: 'holdReleased' }> & { at: Instant }): void {
  state.verdictGivers.add(by.inspector);
  const at = placeOfHold(loft, state, by.hold);
  if (at === null || !at.isDue) return;
  if (!state.spent.has(by.sighting) || state.packers.includes(by.inspector)) return;
  state.called.delete(at.stage.id);
  state.releases.set(by.hold, { inspector: by.inspector, sighting: by.sighting, at: by.at });
}

/** The stage that a hold follows, and whether the work before it is done; null for a hold that the procedure lacks. */
function placeOfHold(loft: Loft, state: Folding, hold: string): { stage: Stage; isDue: boolean } | null {
  const procedure = procedureOf(loft, state);
  if (procedure === null) return null;
  const { stages, finalHold } = procedure;
  const last = stages.at(-1);
  if (last !== undefined && finalHold?.id === hold) {
    return { stage: last, isDue: state.signed !== null && state.cardPlaced };
  }
  const stage = stages.find((one) => one.hold?.id === hold);
  return stage === undefined ? null : { stage, isDue: isStageDone(stage, workOf(state, stage.id)) };
}

/** Fails closed: only the release of the final hold, for the signature that stands, closes a pack. */
function isClosedBy(loft: Loft, state: Folding, body: Extract<FactBody, { kind: 'packClosed' }>): boolean {
  const procedure = procedureOf(loft, state);
  if (!state.cardPlaced || state.signed?.seq !== body.signed) return false;
  // Where the loft has lost the procedure nobody can tell more, and what was closed stays closed.
  if (procedure === null) return true;
  return (
    procedure.finalHold?.id === body.hold &&
    isReleased(state, body.hold) &&
    state.releases.get(body.hold)?.inspector === body.inspector
  );
}

function unsign(state: Folding): void {
  state.signed = null;
  state.cardPlaced = false;
}

/**
 * After a return or a reopening: everything from that stage on must be done again, counts and holds included; what lies
 * in the pack still lies in it. Back to the signature means that the pack itself stays as it is.
 */
function goBack(loft: Loft, state: Folding, backTo: string): void {
  state.outside = null;
  unsign(state);
  const procedure = procedureOf(loft, state);
  if (procedure === null) return;
  if (procedure.finalHold !== undefined) state.releases.delete(procedure.finalHold.id);
  if (backTo === BACK_TO_SIGNATURE) return;
  const from = stageOf(procedure, backTo)?.number ?? 1;
  for (const stage of procedure.stages) {
    if (stage.number < from) continue;
    state.stages.delete(stage.id);
    state.called.delete(stage.id);
    if (stage.hold !== null) state.releases.delete(stage.hold.id);
  }
  state.toolsBack.clear();
  state.itemsAccounted.delete('signature');
  // Open up to the first closing stage: what is inside it is counted again before it is closed.
  if (from > (firstClosingStage(procedure)?.number ?? 0)) return;
  state.toolsAccounted.clear();
  state.itemsAccounted.delete('closing');
}
