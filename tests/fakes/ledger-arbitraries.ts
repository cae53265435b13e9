/** Facts of every kind with hostile content, for property tests. */
import fc from 'fast-check';
import { CHANNELS } from '../../src/domain/command';
import { COMPONENT_KINDS } from '../../src/domain/component/component';
import { EDITION, RECHECK_OCCASIONS, type Fact, type FactBody, type FactKind } from '../../src/domain/fact';
import type { LogRecord } from '../../src/domain/log-record';
import { HOLD_CLASSES, ROLES } from '../../src/domain/person';
import { COUNT_NOUNS } from '../../src/domain/procedure';
import { UNITS } from '../../src/domain/quantity';
import { READERS } from '../../src/domain/sighting';
import { SIDES } from '../../src/domain/stow/stow-plan';
import { SPRAT } from '../packing/fixture';
import { SAMPLE_BODIES, SAMPLE_RULE } from './ledger-facts';

/** Any well-formed text: control characters, quotes, emoji, combining marks, text that looks like JSON. */
const text = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 30 }),
  fc.constantFrom('', '"', '\\', '\u0000', '\u2028', '{"v":2}', '__proto__', 'e\u0301', '\u{1F602}', '\uFB33'),
);
const id = text.map((some) => `x${some}`);
const count = fc.integer({ min: 0, max: 1_000_000 });
// Minus zero is stored as 0, so it cannot come back.
const number = fc.double({ min: -1e9, max: 1e9, noNaN: true }).map((value) => value + 0);
const quantity = fc.record({ value: number, unit: fc.constantFrom(...UNITS) });
const channel = fc.constantFrom(...CHANNELS);
const list = <T>(item: fc.Arbitrary<T>) => fc.array(item, { maxLength: 4 });
const date = fc
  .date({ min: new Date('1970-01-01'), max: new Date('2199-12-31'), noInvalidDate: true })
  .map((day) => day.toISOString().slice(0, 10));
const instant = fc
  .date({ min: new Date('1970-01-01'), max: new Date('2199-12-31'), noInvalidDate: true })
  .chain((moment) =>
    fc.constantFrom('Z', '+01:00', '-07:30').map((offset) => moment.toISOString().replace('Z', offset)),
  );
const checks = list(fc.record({ label: text, passed: fc.boolean(), detail: text }));

const logRecord: fc.Arbitrary<LogRecord> = fc.record({
  pack: id,
  assembly: id,
  typeAndMake: text,
  serials: list(fc.record({ kind: text, model: text, serial: text })),
  owner: fc.record({ name: text, address: text }),
  work: text,
  procedure: id,
  revision: text,
  packedOn: date,
  signedAt: instant,
  place: text,
  packers: list(fc.record({ name: text, certificate: text })),
  holds: list(fc.record({ hold: id, title: text, inspector: text, certificate: text, at: instant })),
  values: list(fc.record({ stage: text, what: text, value: text })),
  reopened: list(fc.record({ stage: text, name: text, certificate: text })),
  defects: list(text),
  tools: list(fc.record({ name: text, issued: count, returned: count })),
  temporaryItems: list(fc.record({ name: text, placed: count, removed: count })),
  dropTests: text,
  nextDue: date,
  repackRule: text,
  notice: text,
});

const person = fc.record({
  id,
  nameDigest: fc.constant('1'.repeat(64)),
  certificate: fc.option(text),
  roles: list(fc.constantFrom(...ROLES)),
  models: list(text),
  holdClasses: list(fc.constantFrom(...HOLD_CLASSES)),
  validFrom: date,
  validTo: date,
  revoked: fc.boolean(),
  badges: list(fc.constant('0'.repeat(64))),
});

/** Of nothing in particular. */
const digest = fc.constant('2'.repeat(64));

const is = <K extends FactKind>(kind: K) => fc.constant(kind);

/** One generator for each kind: a kind without one does not compile. */
const BODIES: { readonly [K in FactKind]: fc.Arbitrary<Extract<FactBody, { kind: K }>> } = {
  packOpened: fc.oneof(
    fc.record({ kind: is('packOpened'), packer: id, badgeDigest: digest, table: id, edition: fc.constant(EDITION) }),
    fc.record({ kind: is('packOpened'), packer: id, badge: id, table: id }),
  ),
  componentIdentified: fc.record({
    kind: is('componentIdentified'),
    component: fc.constantFrom(...COMPONENT_KINDS),
    serial: id,
    payloadDigest: digest,
    reader: fc.constantFrom(...READERS),
  }),
  scanRefused: fc.record({ kind: is('scanRefused'), reason: id, detail: text, payloadDigest: digest, where: text }),
  assemblyAgreed: fc.record({ kind: is('assemblyAgreed'), assembly: id, procedure: id, revision: text }),
  checkInPassed: fc.record({ kind: is('checkInPassed'), checks }),
  checkInFailed: fc.record({ kind: is('checkInFailed'), checks }),
  inspected: fc.record({
    kind: is('inspected'),
    component: fc.constantFrom(...COMPONENT_KINDS),
    serial: id,
    result: fc.constantFrom('good', 'finding'),
    finding: fc.option(text),
    channel,
  }),
  recheckPassed: fc.record({ kind: is('recheckPassed'), occasion: fc.constantFrom(...RECHECK_OCCASIONS), checks }),
  recheckFailed: fc.record({ kind: is('recheckFailed'), occasion: fc.constantFrom(...RECHECK_OCCASIONS), checks }),
  toolIssued: fc.record({ kind: is('toolIssued'), tool: id, count }),
  stageConfirmed: fc.record({ kind: is('stageConfirmed'), stage: id, channel }),
  counted: fc.record({ kind: is('counted'), stage: id, noun: fc.constantFrom(...COUNT_NOUNS), count }),
  stowed: fc.record({
    kind: is('stowed'),
    stage: id,
    count,
    total: count,
    lastSide: fc.constantFrom(...SIDES),
  }),
  measured: fc.record({
    kind: is('measured'),
    stage: id,
    value: quantity,
    expected: quantity,
    deviation: number,
    within: fc.boolean(),
  }),
  itemPlaced: fc.record({ kind: is('itemPlaced'), stage: fc.option(id), item: id }),
  itemRemoved: fc.record({ kind: is('itemRemoved'), stage: fc.option(id), item: id }),
  inspectorCalled: fc.record({ kind: is('inspectorCalled'), stage: id }),
  inspectorPresent: fc.record({ kind: is('inspectorPresent'), hold: id, inspector: id, sighting: id }),
  verdictLapsed: fc.record({ kind: is('verdictLapsed'), hold: id, inspector: id }),
  holdReleased: fc.record({ kind: is('holdReleased'), hold: id, inspector: id, sighting: id, channel }),
  holdReturned: fc.record({
    kind: is('holdReturned'),
    hold: id,
    inspector: id,
    sighting: id,
    finding: text,
    backTo: id,
    channel,
  }),
  corrected: fc.record({ kind: is('corrected'), fact: fc.nat() }),
  stoodBy: fc.record({ kind: is('stoodBy') }),
  resumed: fc.record({ kind: is('resumed'), packer: id }),
  handedOver: fc.record({ kind: is('handedOver'), from: id, to: id, sighting: id }),
  restarted: fc.record({ kind: is('restarted') }),
  peopleInForce: fc.record({ kind: is('peopleInForce'), people: list(person) }),
  procedureInForce: fc.record({
    kind: is('procedureInForce'),
    assembly: fc.constant(SAMPLE_BODIES.procedureInForce.assembly),
    procedure: fc.option(fc.constantFrom(SPRAT)),
    rule: fc.option(fc.constantFrom(SAMPLE_RULE, { ...SAMPLE_RULE, interval: { months: 6 } })),
    place: text,
    verdictSeconds: count.map((seconds) => seconds % 86_400),
  }),
  clockJumped: fc.record({ kind: is('clockJumped'), from: instant, to: instant }),
  toolAccounted: fc.record({ kind: is('toolAccounted'), tool: id, count }),
  itemsAccounted: fc.record({
    kind: is('itemsAccounted'),
    before: fc.constantFrom('closing' as const, 'signature' as const),
    out: list(id),
    inside: list(id),
    channel,
  }),
  reopened: fc.record({ kind: is('reopened'), backTo: id, channel }),
  cardPlaced: fc.record({ kind: is('cardPlaced'), channel }),
  packClosed: fc.record({ kind: is('packClosed'), signed: count, hold: id, inspector: id }),
  toolReturned: fc.record({ kind: is('toolReturned'), tool: id, count }),
  signed: fc.record({
    kind: is('signed'),
    packer: id,
    sighting: id,
    record: logRecord,
    awaits: fc.constant('finalHold' as const),
  }),
  restored: fc.record({ kind: is('restored'), by: id, sighting: id, size: count, root: fc.constant('0f'.repeat(32)) }),
  tagCleared: fc.record({
    kind: is('tagCleared'),
    tag: fc.nat(),
    component: fc.constantFrom(...COMPONENT_KINDS),
    serial: id,
    inspector: id,
    sighting: id,
    finding: text,
    channel,
  }),
  stopped: fc.record({ kind: is('stopped'), reason: text }),
};

export const bodyArbitrary: fc.Arbitrary<FactBody> = fc.oneof(...Object.values<fc.Arbitrary<FactBody>>(BODIES));

export const factArbitrary: fc.Arbitrary<Fact> = fc.record({
  seq: fc.nat({ max: Number.MAX_SAFE_INTEGER }),
  pack: id,
  at: instant,
  by: fc.option(id),
  body: bodyArbitrary,
});
