/** What a stored fact must look like: every kind of fact has its schema here, every text and list its bound. */
import { z } from 'zod';
import { CHANNELS } from '../../domain/command';
import { COMPONENT_KINDS } from '../../domain/component/component';
import {
  EDITION,
  HAND_OVER_REASONS,
  NOTE_MAX,
  RECHECK_OCCASIONS,
  STOP_CAUSES,
  type FactBody,
  type FactKind,
} from '../../domain/fact';
import { WORK_KINDS, type LogRecord } from '../../domain/log-record';
import { PIN_POLICIES } from '../../domain/pin';
import { COUNT_NOUNS } from '../../domain/procedure';
import { READERS } from '../../domain/sighting';
import { SIDES } from '../../domain/stow/stow-plan';
import { assembly, personInForce, procedure, repackRule } from './in-force-schema';
import { count, date, hexDigest, id, line, list, measure, quantity } from './schema-parts';

/** A scanned payload in a fact of edition 1: the largest symbol that we read, a QR code, holds 7,089 characters. */
const payload = z.string().max(8_000);
const seq = z.int().min(0);
const channel = z.enum(CHANNELS);
/** ISO 8601 with seconds and an offset, as `Instant` says. */
const instant = z.string().max(40).check(isInstant());

function isInstant(): z.core.CheckFn<string> {
  const shape = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d{1,9})?(Z|[+-]\d{2}:\d{2})$/;
  return (ctx) => {
    if (shape.test(ctx.value) && Number.isFinite(Date.parse(ctx.value))) return;
    ctx.issues.push({ code: 'custom', input: ctx.value, message: 'not a date and time with offset' });
  };
}

const checks = list(z.strictObject({ label: line, passed: z.boolean(), detail: line }));

const occasion = z.enum(RECHECK_OCCASIONS);

const logRecord: z.ZodType<LogRecord> = z.strictObject({
  pack: id,
  assembly: id,
  typeAndMake: line,
  serials: list(z.strictObject({ kind: line, model: line, serial: line })),
  owner: z.strictObject({ name: line, address: line }),
  work: line,
  procedure: id,
  revision: line,
  packedOn: date,
  signedAt: instant,
  place: line,
  packers: list(z.strictObject({ name: line, certificate: line })),
  stagesBy: list(z.strictObject({ name: line, certificate: line, stages: line })).optional(),
  clock: list(line).optional(),
  holds: list(z.strictObject({ hold: id, title: line, inspector: line, certificate: line, at: instant })),
  values: list(z.strictObject({ stage: line, what: line, value: line })),
  reopened: list(z.strictObject({ stage: line, name: line, certificate: line })).optional(),
  defects: list(line),
  materialDefects: list(line).nullable().optional(),
  workKind: z.enum(WORK_KINDS).optional(),
  sealMark: line.optional(),
  uses: list(z.strictObject({ serial: line, uses: count.nullable() })).optional(),
  tools: list(z.strictObject({ name: line, issued: count, returned: count })),
  temporaryItems: list(z.strictObject({ name: line, placed: count, removed: count })),
  dropTests: line,
  nextDue: date,
  repackRule: line,
  notice: line,
});

const kind = <K extends FactKind>(name: K) => z.literal(name);

/** One schema for each kind of fact; a kind without one does not compile. */
export const BODY_SCHEMAS: { readonly [K in FactKind]: z.ZodType<Extract<FactBody, { kind: K }>> } = {
  packOpened: z.strictObject({
    kind: kind('packOpened'),
    packer: id,
    badgeDigest: hexDigest.optional(),
    badge: id.optional(),
    table: id,
    edition: z.int().min(1).max(EDITION).optional(),
    journalDay: date.optional(),
  }),
  componentIdentified: z.strictObject({
    kind: kind('componentIdentified'),
    component: z.enum(COMPONENT_KINDS),
    serial: id,
    payloadDigest: hexDigest.optional(),
    payload: payload.optional(),
    reader: z.enum(READERS),
  }),
  scanRefused: z.strictObject({
    kind: kind('scanRefused'),
    reason: id,
    detail: line,
    payloadDigest: hexDigest.optional(),
    payload: payload.optional(),
    where: line,
  }),
  assemblyAgreed: z.strictObject({
    kind: kind('assemblyAgreed'),
    assembly: id,
    procedure: id,
    revision: line,
    digest: z.string().length(64).optional(),
  }),
  checkInPassed: z.strictObject({ kind: kind('checkInPassed'), checks }),
  checkInFailed: z.strictObject({ kind: kind('checkInFailed'), checks }),
  inspected: z.strictObject({
    kind: kind('inspected'),
    component: z.enum(COMPONENT_KINDS),
    serial: id,
    result: z.enum(['good', 'finding']),
    finding: line.nullable(),
    channel,
  }),
  recheckPassed: z.strictObject({ kind: kind('recheckPassed'), occasion, checks }),
  recheckFailed: z.strictObject({ kind: kind('recheckFailed'), occasion, checks }),
  toolIssued: z.strictObject({ kind: kind('toolIssued'), tool: id, count }),
  stageConfirmed: z.strictObject({ kind: kind('stageConfirmed'), stage: id, channel }),
  counted: z.strictObject({ kind: kind('counted'), stage: id, noun: z.enum(COUNT_NOUNS), count }),
  stowed: z.strictObject({ kind: kind('stowed'), stage: id, count, total: count, lastSide: z.enum(SIDES) }),
  measured: z.strictObject({
    kind: kind('measured'),
    stage: id,
    value: quantity,
    expected: quantity,
    deviation: measure,
    within: z.boolean(),
  }),
  itemPlaced: z.strictObject({ kind: kind('itemPlaced'), stage: id.nullable(), item: id }),
  itemRemoved: z.strictObject({ kind: kind('itemRemoved'), stage: id.nullable(), item: id }),
  inspectorCalled: z.strictObject({ kind: kind('inspectorCalled'), stage: id }),
  inspectorPresent: z.strictObject({
    kind: kind('inspectorPresent'),
    hold: id,
    inspector: id,
    sighting: id,
    pin: z.literal(true).optional(),
  }),
  verdictLapsed: z.strictObject({ kind: kind('verdictLapsed'), hold: id, inspector: id }),
  holdReleased: z.strictObject({ kind: kind('holdReleased'), hold: id, inspector: id, sighting: id, channel }),
  holdReturned: z.strictObject({
    kind: kind('holdReturned'),
    hold: id,
    inspector: id,
    sighting: id,
    finding: line,
    note: z.string().min(1).max(NOTE_MAX).optional(),
    backTo: id,
    channel,
  }),
  corrected: z.strictObject({ kind: kind('corrected'), fact: seq }),
  stoodBy: z.strictObject({ kind: kind('stoodBy') }),
  resumed: z.strictObject({ kind: kind('resumed'), packer: id, sighting: id.optional() }),
  handedOver: z.strictObject({
    kind: kind('handedOver'),
    from: id,
    to: id,
    sighting: id,
    fromSighting: id.optional(),
    reason: z.enum(HAND_OVER_REASONS).optional(),
    lookedBack: id.nullable().optional(),
    lead: id.optional(),
  }),
  restarted: z.strictObject({
    kind: kind('restarted'),
    journalDay: date.optional(),
    standsBy: z.literal(true).optional(),
  }),
  peopleInForce: z.strictObject({ kind: kind('peopleInForce'), people: list(personInForce) }),
  procedureInForce: z.strictObject({
    kind: kind('procedureInForce'),
    assembly,
    procedure: procedure.nullable(),
    rule: repackRule.nullable(),
    place: line,
    verdictSeconds: z.number().min(0).max(86_400),
    resumeBadgeMinutes: z.number().min(0).max(1_440).optional(),
    pin: z.enum(PIN_POLICIES).optional(),
    seals: z.boolean().optional(),
  }),
  clockJumped: z.strictObject({
    kind: kind('clockJumped'),
    from: instant,
    to: instant,
    zoneFrom: line.optional(),
    zoneTo: line.optional(),
    daylightSaving: z.literal(true).optional(),
  }),
  toolAccounted: z.strictObject({ kind: kind('toolAccounted'), tool: id, count }),
  itemsAccounted: z.strictObject({
    kind: kind('itemsAccounted'),
    before: z.enum(['closing', 'signature']),
    out: list(id),
    inside: list(id),
    channel,
  }),
  toolReturned: z.strictObject({ kind: kind('toolReturned'), tool: id, count }),
  reopened: z.strictObject({ kind: kind('reopened'), backTo: id, channel }),
  signed: z.strictObject({
    kind: kind('signed'),
    packer: id,
    sighting: id,
    record: logRecord,
    pin: z.literal(true).optional(),
    awaits: z.literal('finalHold').optional(),
  }),
  cardPlaced: z.strictObject({ kind: kind('cardPlaced'), channel }),
  packClosed: z.strictObject({ kind: kind('packClosed'), signed: seq, hold: id, inspector: id }),
  restored: z.strictObject({
    kind: kind('restored'),
    by: id,
    sighting: id,
    size: seq,
    root: hexDigest,
    pin: z.literal(true).optional(),
    behind: z.strictObject({ size: seq, root: hexDigest }).optional(),
  }),
  tagCleared: z.strictObject({
    kind: kind('tagCleared'),
    tag: seq,
    component: z.enum(COMPONENT_KINDS),
    serial: id,
    inspector: id,
    sighting: id,
    pin: z.literal(true).optional(),
    finding: line,
    channel,
  }),
  stopped: z.strictObject({
    kind: kind('stopped'),
    reason: line,
    cause: z.enum(STOP_CAUSES).optional(),
    component: z.enum(COMPONENT_KINDS).optional(),
  }),
};

/** Whether the name is a kind of fact that this version knows. */
export function isFactKind(name: string): name is FactKind {
  return Object.hasOwn(BODY_SCHEMAS, name);
}

/** Version of the stored form; one more with every change that an older kiosk could misread. */
export const FACT_FORMAT = 1;

/** Everything around the body, as stored. */
export const ENVELOPE_SCHEMA = z.strictObject({
  v: z.literal(FACT_FORMAT),
  seq,
  pack: id,
  at: instant,
  by: id.nullable(),
  body: z.looseObject({ kind: z.string() }),
});
