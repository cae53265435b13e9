/** The log record, built from the facts and the loft's files alone (14 CFR 65.131(a) and (c) name what it must hold). */
import type { PackId, PersonId } from '../../../domain/ids';
import type { Assembly } from '../../../domain/component/component';
import { COMPONENT_KINDS } from '../../../domain/component/component';
import type { Instant } from '../../../domain/instant';
import { dateOf } from '../../../domain/instant';
import type { LogRecord, StagesBy } from '../../../domain/log-record';
import type { Loft } from '../../../domain/loft';
import { personById } from '../../../domain/loft';
import type { Procedure } from '../../../domain/procedure';
import { allHoldsOf, BACK_TO_SIGNATURE, holdsOf, stageOf } from '../../../domain/procedure';
import { makeQuantity } from '../../../domain/quantity';
import type { RepackRule } from '../../../domain/component/repack-rule';
import { lastGoodDay } from '../../../domain/component/repack-rule';
import { findingById, findingText } from '../hold/findings';
import { recordedOf } from '../stage/kinds';
import { recordNotice } from '../../words/notices';
import type { JumpBody, MeasuredBody, PackState, ReturnBody } from '../../state/pack-state';
import { workOf } from '../../state/pack-state';

export interface RecordInput {
  readonly loft: Loft;
  readonly pack: PackId;
  readonly state: PackState;
  readonly procedure: Procedure;
  readonly assembly: Assembly;
  readonly rule: RepackRule;
  /** When it is signed. */
  readonly at: Instant;
}

function certified(loft: Loft, id: PersonId): { readonly name: string; readonly certificate: string } {
  const person = personById(loft, id);
  return { name: person?.name ?? id, certificate: person?.certificate ?? 'not on record' };
}

function stageName(procedure: Procedure, id: string): string {
  const stage = stageOf(procedure, id);
  return stage === null ? id : `stage ${String(stage.number)}, ${stage.title}`;
}

function returnDefect({ procedure, loft }: RecordInput, body: ReturnBody): string {
  const at = allHoldsOf(procedure).find(({ hold }) => hold.id === body.hold);
  const finding = at === undefined ? null : findingById(at.hold, at.stage, body.finding);
  const { name } = certified(loft, body.inspector);
  const isFinal = body.hold === procedure.finalHold?.id;
  const backTo = body.backTo === BACK_TO_SIGNATURE ? 'the signature' : stageName(procedure, body.backTo);
  return (
    `Hold ${at?.hold.title ?? body.hold}: ${findingText(finding?.text ?? body.finding, body.note ?? null)}, found by ${name}. ` +
    `Done again from ${backTo} and ${isFinal ? 'signed' : 'inspected'} again.`
  );
}

function outsideDefect({ procedure, state }: RecordInput, body: MeasuredBody): string {
  const { value, expected, deviation } = body;
  const then = workOf(state, body.stage).measured;
  const after = then === null ? '' : ` Put right: ${makeQuantity(then)}.`;
  const off = `${makeQuantity({ ...expected, value: Math.abs(deviation) })} too ${deviation > 0 ? 'long' : 'short'}`;
  return (
    `At ${stageName(procedure, body.stage)}: ${makeQuantity(value)} measured, ${makeQuantity(expected)} expected, ` +
    `${off}.${after}`
  );
}

function holdLines({ loft, procedure, state }: RecordInput): LogRecord['holds'] {
  return holdsOf(procedure).flatMap(({ hold }) => {
    const release = state.releases.get(hold.id);
    if (release === undefined) return [];
    const { name, certificate } = certified(loft, release.inspector);
    return [{ hold: hold.id, title: hold.title, inspector: name, certificate, at: release.at }];
  });
}

function reopenedIn({ loft, procedure, state }: RecordInput): Pick<LogRecord, 'reopened'> {
  if (state.reopenings.length === 0) return {};
  const reopened = state.reopenings.map(({ backTo, by }) => ({
    stage: stageName(procedure, backTo),
    ...certified(loft, by ?? ''),
  }));
  return { reopened };
}

/** What only records since the second edition hold: kind of work, material defects, seal and uses. */
function sinceEdition2({ loft, state, assembly }: RecordInput): Partial<LogRecord> {
  const { components } = assembly;
  const looked = components.map(({ kind }) => state.inspected.get(kind));
  const asked = looked.every((one) => one !== undefined);
  const found = looked.flatMap((one) => (one?.result === 'finding' ? [one.finding ?? ''] : []));
  const mark = loft.settings.seals === true ? sealMarkOf(loft, state) : null;
  return {
    materialDefects: asked ? found : null,
    workKind: components.every(({ lastPackedOn }) => lastPackedOn !== null) ? 'inspectAndRepack' : 'assembleAndPack',
    ...(mark === null ? {} : { sealMark: mark }),
    uses: components.map(({ serial, uses = null }) => ({ serial, uses })),
  };
}

/** The seal mark of whoever packs now; null where they have none. */
export function sealMarkOf(loft: Loft, { packer }: Pick<PackState, 'packer'>): string | null {
  return (packer === null ? null : personById(loft, packer)?.sealMark) ?? null;
}

function signerLast({ packers, packer }: PackState): readonly string[] {
  return packer === null ? packers : [...packers.filter((id) => id !== packer), packer];
}

/** "1 to 9, 14". */
function ranges(numbers: readonly number[]): string {
  const runs: (readonly [number, number])[] = [];
  for (const number of numbers) {
    const run = runs.at(-1);
    if (run !== undefined && number === run[1] + 1) runs[runs.length - 1] = [run[0], number];
    else runs.push([number, number]);
  }
  return runs
    .map(([first, last]) => (first === last ? String(first) : `${String(first)} to ${String(last)}`))
    .join(', ');
}

function stagesBy({ loft, procedure, state }: RecordInput): readonly StagesBy[] {
  return signerLast(state).flatMap((id) => {
    const done = procedure.stages.filter((stage) => workOf(state, stage.id).by === id);
    return done.length === 0 ? [] : [{ ...certified(loft, id), stages: ranges(done.map(({ number }) => number)) }];
  });
}

/** "2026-11-25 14:03:07 +01:00". */
function clockText(at: Instant): string {
  const zone = at.endsWith('Z') ? '+00:00' : at.slice(-6);
  return `${at.slice(0, 10)} ${at.slice(11, 19)} ${zone}`;
}

function jumpSentence({ from, to, zoneFrom, zoneTo, daylightSaving }: JumpBody): string {
  const went = `The clock went from ${clockText(from)} to ${clockText(to)}.`;
  if (zoneFrom === undefined || zoneTo === undefined) return went;
  const why = daylightSaving === true ? 'by daylight saving' : 'because it was set';
  return `${went} Its zone went from ${zoneFrom} to ${zoneTo} ${why}.`;
}

/** The record of this pack as it is signed at `at`. Only a pack whose close-up checks have passed gets one. */
export function logRecordOf(input: RecordInput): LogRecord {
  const { loft, pack, state, procedure, assembly, rule, at } = input;
  const packedOn = dateOf(at);
  const holds = holdLines(input);
  return {
    pack,
    assembly: assembly.name,
    typeAndMake: assembly.typeAndMake,
    serials: COMPONENT_KINDS.flatMap((kind) =>
      assembly.components
        .filter((one) => one.kind === kind)
        .map(({ model, serial }) => ({ kind, model, serial: state.identified.get(kind) ?? serial })),
    ),
    owner: assembly.owner,
    work:
      `Packed by ${procedure.title}, revision ${procedure.revision}: ` +
      `${String(procedure.stages.length)} stages, ${String(holds.length)} inspection holds released.`,
    procedure: procedure.title,
    revision: procedure.revision,
    packedOn,
    signedAt: at,
    place: loft.settings.place,
    packers: signerLast(state).map((id) => certified(loft, id)),
    stagesBy: stagesBy(input),
    ...(state.jumps.length === 0 ? {} : { clock: state.jumps.map(jumpSentence) }),
    holds,
    values: procedure.stages.flatMap((stage) => {
      const value = recordedOf(stage, workOf(state, stage.id));
      return value === null ? [] : [{ stage: `${String(stage.number)} ${stage.title}`, ...value }];
    }),
    ...reopenedIn(input),
    ...sinceEdition2(input),
    defects: [
      ...state.returns.map((body) => returnDefect(input, body)),
      ...state.outsides.map((body) => outsideDefect(input, body)),
    ],
    tools: procedure.tools.map(({ id, name }) => ({
      name,
      issued: state.toolsOut.get(id) ?? 0,
      returned: state.toolsBack.get(id) ?? 0,
    })),
    temporaryItems: procedure.temporaryItems.map(({ id, name }) => ({
      name,
      placed: state.itemsPlaced.get(id) ?? 0,
      removed: state.itemsRemoved.get(id) ?? 0,
    })),
    dropTests: 'None made.',
    nextDue: lastGoodDay(rule, packedOn),
    repackRule: rule.title,
    notice: recordNotice(procedure),
  };
}
