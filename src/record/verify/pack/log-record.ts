/** Recomputes the log record that was signed from the facts before it, and names every field that differs. */
import type { LogRecord } from '../../../domain/log-record';
import type { Procedure, Stage } from '../../../domain/procedure';
import type { Account } from './account';
import { dayNumber, dueDay, lastDay } from '../sums/calendar';
import type { FoundBy } from './defects';
import { againstDefects, named } from './defects';
import { lengthText } from '../sums/lengths';
import { sinceEdition2 } from './record-members';
import { hexAt, sha256 } from '../bytes/sha256';

/** What no record may leave out, however the rest of its notice is worded. */
const NOTICE = /\bassists and does not certify\b/;
/** What a record by an invented procedure says besides. */
const DEMONSTRATION = /\bmust not be used to pack a parachute\b/;

/** One sentence for each field that is not what the facts amount to. */
export function againstRecord(
  account: Account,
  record: LogRecord,
  signed: { pack: string; at: string },
): readonly string[] {
  const { work, procedure } = account;
  if (work === null || procedure === null) return ['What the record should say is not on record.'];
  const { assembly, rule } = work;
  const certificate = (id: string): string => account.people?.get(id)?.certificate ?? 'not on record';
  const signer = account.packer ?? '';
  const packing = [...account.packers.filter((id) => id !== signer), signer];
  const packers = packing.map(certificate);
  const holds = procedure.stages.flatMap(({ hold }) => {
    const release = hold === null ? undefined : account.released.get(hold.id);
    return hold === null || release === undefined
      ? []
      : [[hold.id, hold.title, certificate(release.inspector), release.at]];
  });
  const on = signed.at.slice(0, 10);
  const reopened = account.reopenings.map(({ backTo, by }) => [named(procedure.stages, backTo), certificate(by)]);
  const expected: (readonly [string, unknown, unknown])[] = [
    ['pack', record.pack, signed.pack],
    ['time of signature', record.signedAt, signed.at],
    ['date of packing', record.packedOn, on],
    ['place', record.place, work.place],
    ['assembly', record.assembly, assembly.name],
    ['type and make', record.typeAndMake, assembly.typeAndMake],
    ['owner', [record.owner.name, record.owner.address], [assembly.owner.name, assembly.owner.address]],
    ['procedure', record.procedure, procedure.title],
    ['revision', record.revision, procedure.revision],
    ['repack rule', record.repackRule, rule?.title],
    ['last day of use', dayNumber(record.nextDue), lastDayOf(account, on)],
    ['packers', record.packers.map((one) => one.certificate), packers],
    ['holds', record.holds.map((one) => [one.hold, one.title, one.certificate, one.at]), holds],
    ['reopened stages', (record.reopened ?? []).map(({ stage, certificate: by }) => [stage, by]), reopened],
    ['serials', serialsOf(record.serials), serialsOf(partsOf(account))],
    ['values', record.values, procedure.stages.flatMap((stage) => valueOf(account, stage))],
    ['tools', record.tools, procedure.tools.map(({ id, name }) => tool(account, id, name))],
    ['temporary items', record.temporaryItems, procedure.temporaryItems.map(({ id, name }) => item(account, id, name))],
    ['safety notice', NOTICE.test(record.notice), true],
    ['demonstration notice', isMarked(account, procedure, record.notice), true],
    ...sinceEdition2(account, record),
    ['drop tests', record.dropTests, 'None made.'],
    ['work done', record.work, workDone(account, procedure)],
  ];
  expected.push(...shares(account, record, packing));
  const differing = expected.flatMap(([name, found, should]) =>
    text(found) === text(should) ? [] : [`The record’s ${name} is not what the facts amount to.`],
  );
  const defects = againstDefects(account, record);
  const called: readonly FoundBy[] = [
    ...defects.foundBy,
    ...record.packers.map(({ name }, at) => ({ id: packing[at] ?? '', name })),
    ...(record.reopened ?? []).map(({ name }, at) => ({ id: account.reopenings[at]?.by ?? '', name })),
    ...(record.stagesBy ?? []).map(({ name }, at) => ({ id: sharers(account, packing)[at] ?? '', name })),
    ...record.holds.map(({ hold, inspector }) => ({
      id: account.released.get(hold)?.inspector ?? '',
      name: inspector,
    })),
  ];
  return [...differing, ...defects.wrong, ...new Set(called.flatMap((one) => againstName(account, one)))];
}

/** Those who completed a stage that still stands, in the order of the record. */
function sharers(account: Account, packing: readonly string[]): readonly string[] {
  const stages = account.procedure?.stages ?? [];
  return packing.filter((id) => stages.some((stage) => account.stages.get(stage.id)?.by === id));
}

/** "1 to 9, 14": each number with the ones that follow on it without a gap. */
function numbersText(numbers: readonly number[]): string {
  const starts = numbers.filter((one) => !numbers.includes(one - 1));
  return starts
    .map((start) => {
      let end = start;
      while (numbers.includes(end + 1)) end += 1;
      return end > start ? `${start} to ${end}` : `${start}`;
    })
    .join(', ');
}

/** Who did which stage, and where the clock jumped: demanded since edition 2, and right wherever it is said. */
function shares(
  account: Account,
  record: LogRecord,
  packing: readonly string[],
): readonly (readonly [string, unknown, unknown])[] {
  const { edition, procedure, people, jumps, lateJumps } = account;
  const isOwed = edition >= 2;
  const stagesBy = sharers(account, packing).map((id) => [
    people?.get(id)?.certificate ?? 'not on record',
    numbersText((procedure?.stages ?? []).filter((one) => account.done(one.id).by === id).map(({ number }) => number)),
  ]);
  const found = record.stagesBy?.map((one) => [one.certificate, one.stages]);
  const sentences = jumps.map(jumpText);
  // A jump that was noticed with the signature itself came too late for its record.
  const known = sentences.slice(0, sentences.length - lateJumps);
  const clock = record.clock ?? [];
  const isAll = text(clock) === text(sentences);
  return [
    ...(isOwed || found !== undefined ? [['stages by packer', found, stagesBy] as const] : []),
    ...(isOwed || clock.length > 0 ? [['jumps of the clock', clock, isAll ? sentences : known] as const] : []),
  ];
}

function jumpText({ from, to, zoneFrom, zoneTo, daylightSaving }: Account['jumps'][number]): string {
  const [was, is] = [from, to].map((at) => at.replace(/T(\d\d:\d\d:\d\d)(?:\.\d+)?/, ' $1 ').replace(/Z$/, '+00:00'));
  const why = daylightSaving === true ? 'by daylight saving' : 'because it was set';
  const zone =
    zoneFrom === undefined || zoneTo === undefined ? '' : ` Its zone went from ${zoneFrom} to ${zoneTo} ${why}.`;
  return `The clock went from ${was} to ${is}.${zone}`;
}

/** Packs of the first edition stated the day of the interval, whatever the boundary. */
function lastDayOf({ edition, work }: Account, on: string): number {
  const rule = work?.rule ?? null;
  if (rule === null) return Number.NaN;
  return edition < 2 ? dueDay(rule.interval, on) : lastDay(rule, on);
}

/** Records of an earlier edition all carried the notice, whatever their procedure was. */
function isMarked({ edition }: Account, { demonstration }: Procedure, notice: string): boolean {
  const marked = DEMONSTRATION.test(notice);
  return demonstration === true ? marked : edition < 2 || !marked;
}

function workDone({ released }: Account, { title, revision, stages }: Procedure): string {
  const holds = stages.filter(({ hold }) => hold !== null && released.has(hold.id)).length;
  return (
    `Packed by ${title}, revision ${revision}: ` +
    `${String(stages.length)} stages, ${String(holds)} inspection holds released.`
  );
}

/** The people file in force holds only a digest of each name; one that an earlier version stored holds none. */
function againstName({ people }: Account, { id, name }: FoundBy): readonly string[] {
  const digest = people?.get(id)?.nameDigest;
  if (digest === undefined || digest === hexAt(sha256(new TextEncoder().encode(`${id}\n${name}`)))) return [];
  return [`The record calls ${id} “${name}”, which is not the name in the people file that was in force.`];
}

/** Members in the order of their names, so that only what they hold counts. */
function text(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(text).join()}]`;
  if (typeof value !== 'object' || value === null)
    return typeof value === 'number' ? String(value) : (JSON.stringify(value) ?? 'none');
  return `{${Object.entries(value)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, member]) => `${key}:${text(member)}`)
    .join()}}`;
}

interface Part {
  readonly kind: string;
  readonly model: string;
  readonly serial: string;
}

function partsOf({ work, identified }: Account): readonly Part[] {
  return (work?.assembly.components ?? [])
    .filter(({ kind }) => identified.has(kind))
    .map(({ kind, model }) => ({ kind, model, serial: identified.get(kind) ?? '' }));
}

function serialsOf(parts: readonly Part[]): readonly string[] {
  return parts.map(({ kind, model, serial }) => JSON.stringify([kind, model, serial])).sort();
}

function valueOf(account: Account, stage: Stage): readonly { stage: string; what: string; value: string }[] {
  const done = account.done(stage.id);
  const named = `${String(stage.number)} ${stage.title}`;
  const counted = (count: number, noun: string): string => `${String(count)} ${count === 1 ? noun.slice(0, -1) : noun}`;
  if (stage.kind === 'count')
    return [{ stage: named, what: stage.noun, value: counted(done.counted ?? 0, stage.noun) }];
  if (stage.kind === 'stow') {
    return [
      { stage: named, what: 'stows', value: `${counted(done.stows, 'stows')} of ${lengthText(stage.plan.bight)}` },
    ];
  }
  if (stage.kind !== 'measure') return [];
  return [{ stage: named, what: stage.what, value: done.measured === null ? 'missing' : lengthText(done.measured) }];
}

function tool({ out, back }: Account, id: string, name: string): LogRecord['tools'][number] {
  return { name, issued: out.get(id) ?? 0, returned: back.get(id) ?? 0 };
}

function item({ placed, removed }: Account, id: string, name: string): LogRecord['temporaryItems'][number] {
  return { name, placed: placed.get(id) ?? 0, removed: removed.get(id) ?? 0 };
}
