/** The form of every kind of fact, to the letter. A kind or a member that has none here does not compile. */
import type { CheckLine } from '../../../domain/check-line';
import type { FactBody, FactKind } from '../../../domain/fact';
import type { LogRecord, StagesBy } from '../../../domain/log-record';
import { canonicalText } from '../bytes/canonical';
import type { Note } from '../finding';
import {
  count,
  flag,
  hex,
  id,
  line,
  list,
  measure,
  number,
  object,
  oneOf,
  optional,
  orNull,
  text,
  whole,
} from './form';
import type { Form, FormsOf } from './form';
import { assembly, date, kinds, nouns, person, procedure, quantity, rule, sides } from './in-force-form';
import { spells } from '../bytes/read-export';

const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d{1,9})?(Z|[+-]\d{2}:\d{2})$/;
const instant: Form = (value) =>
  typeof value === 'string' && INSTANT.test(value) && Number.isFinite(Date.parse(value)) && date(value.slice(0, 10));
const seq = whole(0, Number.MAX_SAFE_INTEGER);
const channel = oneOf(['voice', 'touch', 'key', 'card']);
const reader = oneOf(['camera', 'wedge', 'touch']);
/** Of edition 1 alone. */
const payload = optional(text(0, 8_000));
const given = optional(oneOf([true]));
const checks = list(object<CheckLine>({ label: line, passed: flag, detail: line }));

type PartOf<K extends keyof LogRecord> = LogRecord[K] extends readonly (infer T)[] ? T : LogRecord[K];

type Uses = NonNullable<LogRecord['uses']>[number];
type Reopened = NonNullable<LogRecord['reopened']>[number];

const record = object<LogRecord>({
  pack: id,
  assembly: id,
  typeAndMake: line,
  serials: list(object<PartOf<'serials'>>({ kind: line, model: line, serial: line })),
  owner: object<PartOf<'owner'>>({ name: line, address: line }),
  work: line,
  procedure: id,
  revision: line,
  packedOn: date,
  signedAt: instant,
  place: line,
  packers: list(object<PartOf<'packers'>>({ name: line, certificate: line })),
  stagesBy: optional(list(object<StagesBy>({ name: line, certificate: line, stages: line }))),
  clock: optional(list(line)),
  holds: list(object<PartOf<'holds'>>({ hold: id, title: line, inspector: line, certificate: line, at: instant })),
  reopened: optional(list(object<Reopened>({ stage: line, name: line, certificate: line }))),
  values: list(object<PartOf<'values'>>({ stage: line, what: line, value: line })),
  defects: list(line),
  materialDefects: optional(orNull(list(line))),
  workKind: optional(oneOf(['assembleAndPack', 'inspectAndRepack'])),
  sealMark: optional(line),
  uses: optional(list(object<Uses>({ serial: line, uses: orNull(count) }))),
  tools: list(object<PartOf<'tools'>>({ name: line, issued: count, returned: count })),
  temporaryItems: list(object<PartOf<'temporaryItems'>>({ name: line, placed: count, removed: count })),
  dropTests: line,
  nextDue: date,
  repackRule: line,
  notice: line,
});

type Members<K extends FactKind> = FormsOf<Omit<Extract<FactBody, { kind: K }>, 'kind'>>;
type ByKind = { readonly [K in FactKind]: Members<K> };

const occasion = oneOf(['resumed', 'restarted', 'handedOver', 'reopened', 'signed', 'filesChanged']);

const MEMBERS: ByKind = {
  packOpened: {
    packer: id,
    badgeDigest: optional(hex),
    badge: optional(id),
    table: id,
    edition: optional(whole(1, 1e6)),
    journalDay: optional(date),
  },
  componentIdentified: { component: kinds, serial: id, payloadDigest: optional(hex), payload, reader },
  scanRefused: { reason: id, detail: line, payloadDigest: optional(hex), payload, where: line },
  assemblyAgreed: { assembly: id, procedure: id, revision: line, digest: optional(hex) },
  checkInPassed: { checks },
  checkInFailed: { checks },
  recheckPassed: { occasion, checks },
  recheckFailed: { occasion, checks },
  toolIssued: { tool: id, count },
  stageConfirmed: { stage: id, channel },
  counted: { stage: id, noun: nouns, count },
  stowed: { stage: id, count, total: count, lastSide: sides },
  measured: { stage: id, value: quantity, expected: quantity, deviation: measure, within: flag },
  itemPlaced: { stage: orNull(id), item: id },
  itemRemoved: { stage: orNull(id), item: id },
  inspectorCalled: { stage: id },
  inspectorPresent: { hold: id, inspector: id, sighting: id, pin: given },
  verdictLapsed: { hold: id, inspector: id },
  holdReleased: { hold: id, inspector: id, sighting: id, channel },
  holdReturned: {
    hold: id,
    inspector: id,
    sighting: id,
    finding: line,
    note: optional(text(1, 200)),
    backTo: id,
    channel,
  },
  corrected: { fact: seq },
  stoodBy: {},
  resumed: { packer: id, sighting: optional(id) },
  handedOver: {
    from: id,
    to: id,
    sighting: id,
    fromSighting: optional(id),
    reason: optional(oneOf(['endOfShift', 'calledAway', 'unwell', 'relieved', 'other'])),
    lookedBack: optional(orNull(id)),
    lead: optional(id),
  },
  restarted: { journalDay: optional(date), standsBy: given },
  peopleInForce: { people: list(person) },
  procedureInForce: {
    assembly,
    procedure: orNull(procedure),
    rule: orNull(rule),
    place: line,
    verdictSeconds: number(0, 86_400),
    resumeBadgeMinutes: optional(number(0, 1_440)),
    pin: optional(oneOf(['never', 'firstUse', 'eachHold'])),
    seals: optional(flag),
  },
  clockJumped: {
    from: instant,
    to: instant,
    zoneFrom: optional(line),
    zoneTo: optional(line),
    daylightSaving: given,
  },
  toolAccounted: { tool: id, count },
  itemsAccounted: { before: oneOf(['closing', 'signature']), out: list(id), inside: list(id), channel },
  toolReturned: { tool: id, count },
  reopened: { backTo: id, channel },
  signed: { packer: id, sighting: id, record, pin: given, awaits: optional(oneOf(['finalHold'])) },
  cardPlaced: { channel },
  packClosed: { signed: seq, hold: id, inspector: id },
  inspected: { component: kinds, serial: id, result: oneOf(['good', 'finding']), finding: orNull(line), channel },
  restored: {
    by: id,
    sighting: id,
    size: seq,
    root: hex,
    pin: given,
    behind: optional(object<{ size: number; root: string }>({ size: seq, root: hex })),
  },
  tagCleared: {
    tag: seq,
    component: kinds,
    serial: id,
    inspector: id,
    sighting: id,
    pin: given,
    finding: line,
    channel,
  },
  stopped: {
    reason: line,
    cause: optional(oneOf(['damage', 'contamination', 'wrongPart', 'lostCount', 'checks', 'other'])),
    component: optional(kinds),
  },
};

const BODIES: ReadonlyMap<string, Form> = new Map(
  Object.entries<Readonly<Record<string, Form>>>(MEMBERS).map(([kind, members]) => [
    kind,
    object<Record<string, unknown>>({ ...members, kind: oneOf([kind]) }),
  ]),
);

const ENVELOPE = object<Record<'v' | 'seq' | 'pack' | 'at' | 'by' | 'body', unknown>>({
  v: oneOf([1]),
  seq,
  pack: id,
  at: instant,
  by: orNull(id),
  body: (body) =>
    typeof body === 'object' && body !== null && 'kind' in body && BODIES.get(String(body.kind))?.(body) === true,
});

/**
 * Whether this line can be a fact at all: of the form of its kind, with nothing beside it, and in the one spelling that
 * the format allows. A key that stands twice, or a number written otherwise, reads as one thing here and as another there.
 */
export function isWellFormed(value: unknown, bytes: Uint8Array, note: Note): boolean {
  const spelled = canonicalText(value);
  if (spelled === null || !spells(bytes, spelled)) {
    note(
      'spelling',
      'This fact is not in canonical form (RFC 8785): it was not written by a kiosk, or can be read in two ways.',
    );
  }
  if (ENVELOPE(value)) return true;
  note(
    'form',
    'This fact has not the form of its kind: something is missing, out of bounds, or does not belong there.',
  );
  return false;
}
