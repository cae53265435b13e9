/** One plain example of every kind of fact, and short ways to make drafts of them. */
import { EDITION, type FactBody, type FactDraft, type FactKind } from '../../src/domain/fact';
import type { LogRecord } from '../../src/domain/log-record';
import type { RepackRule } from '../../src/domain/component/repack-rule';
import { LOFT, SPRAT } from '../packing/fixture';

export const SAMPLE_RULE: RepackRule = {
  id: 'civil-180',
  title: '180 days',
  interval: { days: 180 },
  boundary: 'inclusive',
};

export const SAMPLE_RECORD: LogRecord = {
  pack: 'pack-1',
  assembly: 'QR-07',
  typeAndMake: 'Ram-air main, Quillhaven pattern "Heron" – 24 m²',
  serials: [
    { kind: 'canopy', model: 'Heron 24', serial: 'QH-4471' },
    { kind: 'bag', model: 'Heron bag', serial: 'QB-0219' },
  ],
  owner: { name: 'Quillhaven Rescue Loft', address: 'Pier Lane 3\nQuillhaven' },
  work: 'Inspected and packed after procedure heron-main, revision C',
  procedure: 'heron-main',
  revision: 'C',
  packedOn: '2026-11-25',
  signedAt: '2026-11-25T14:03:11.250+01:00',
  place: 'Quillhaven, table 2',
  packers: [{ name: 'Ines Vantongeren', certificate: 'QR-118' }],
  holds: [
    {
      hold: 'lines',
      title: 'Line continuity',
      inspector: 'Tomasz Øster',
      certificate: 'QI-7',
      at: '2026-11-25T13:10:00Z',
    },
  ],
  values: [{ stage: 'remainder', what: 'Line left', value: '37 1/4 in' }],
  defects: [],
  tools: [{ name: 'Packing paddle', issued: 1, returned: 1 }],
  temporaryItems: [{ name: 'Red tie', placed: 2, removed: 2 }],
  dropTests: 'none required',
  nextDue: '2027-05-24',
  repackRule: 'civil-180',
  notice: 'Invented procedure, for demonstration only.',
};

/** Of nothing in particular. */
const DIGEST = '2'.repeat(64);

export const SAMPLE_BODIES: { readonly [K in FactKind]: Extract<FactBody, { kind: K }> } = {
  packOpened: { kind: 'packOpened', packer: 'ines', badgeDigest: DIGEST, table: 'table-2', edition: EDITION },
  componentIdentified: {
    kind: 'componentIdentified',
    component: 'canopy',
    serial: 'QH-4471',
    payloadDigest: DIGEST,
    reader: 'camera',
  },
  scanRefused: {
    kind: 'scanRefused',
    reason: 'own-badge',
    detail: 'You packed this. Another inspector must look.',
    payloadDigest: DIGEST,
    where: 'hold:lines',
  },
  assemblyAgreed: { kind: 'assemblyAgreed', assembly: 'QR-07', procedure: 'heron-main', revision: 'C' },
  checkInPassed: { kind: 'checkInPassed', checks: [{ label: 'Repack', passed: true, detail: 'due 2027-01-02' }] },
  recheckPassed: { kind: 'recheckPassed', occasion: 'signed', checks: [] },
  recheckFailed: {
    kind: 'recheckFailed',
    occasion: 'filesChanged',
    checks: [{ label: 'Rigger', passed: false, detail: 'The qualification is revoked.' }],
  },
  checkInFailed: { kind: 'checkInFailed', checks: [] },
  inspected: {
    kind: 'inspected',
    component: 'canopy',
    serial: 'QH-4471',
    result: 'finding',
    finding: 'Damp or not aired',
    channel: 'voice',
  },
  toolIssued: { kind: 'toolIssued', tool: 'paddle', count: 1 },
  stageConfirmed: { kind: 'stageConfirmed', stage: 'lay-out', channel: 'voice' },
  counted: { kind: 'counted', stage: 'gores', noun: 'gores', count: 24 },
  stowed: { kind: 'stowed', stage: 'stows', count: 5, total: 12, lastSide: 'left' },
  measured: {
    kind: 'measured',
    stage: 'remainder',
    value: { value: 37.25, unit: 'in' },
    expected: { value: 37, unit: 'in' },
    deviation: 0.25,
    within: true,
  },
  itemPlaced: { kind: 'itemPlaced', stage: 'tie', item: 'red-tie' },
  itemRemoved: { kind: 'itemRemoved', stage: null, item: 'red-tie' },
  inspectorCalled: { kind: 'inspectorCalled', stage: 'lines' },
  inspectorPresent: { kind: 'inspectorPresent', hold: 'lines', inspector: 'tomasz', sighting: 's-1' },
  verdictLapsed: { kind: 'verdictLapsed', hold: 'lines', inspector: 'tomasz' },
  holdReleased: { kind: 'holdReleased', hold: 'lines', inspector: 'tomasz', sighting: 's-2', channel: 'touch' },
  holdReturned: {
    kind: 'holdReturned',
    hold: 'lines',
    inspector: 'tomasz',
    sighting: 's-3',
    finding: 'Line 3 twisted',
    backTo: 'lay-out',
    channel: 'voice',
  },
  corrected: { kind: 'corrected', fact: 7 },
  stoodBy: { kind: 'stoodBy' },
  resumed: { kind: 'resumed', packer: 'ines' },
  handedOver: { kind: 'handedOver', from: 'ines', to: 'marek', sighting: 's-4' },
  restarted: { kind: 'restarted' },
  peopleInForce: {
    kind: 'peopleInForce',
    people: [
      {
        id: 'ines',
        certificate: 'QR-118',
        roles: ['rigger'],
        models: ['Heron 24'],
        holdClasses: [],
        validFrom: '2026-01-01',
        validTo: '2026-12-31',
        revoked: false,
        nameDigest: '1'.repeat(64),
        badges: ['0'.repeat(64)],
      },
    ],
  },
  procedureInForce: {
    kind: 'procedureInForce',
    assembly: LOFT.assemblies[0]!,
    procedure: SPRAT,
    rule: SAMPLE_RULE,
    place: 'Quillhaven, table 2',
    verdictSeconds: 90,
  },
  clockJumped: { kind: 'clockJumped', from: '2026-11-25T14:03:11.250+01:00', to: '2026-11-25T13:03:11.250+01:00' },
  toolAccounted: { kind: 'toolAccounted', tool: 'paddle', count: 1 },
  itemsAccounted: { kind: 'itemsAccounted', before: 'closing', out: ['red-tie'], inside: [], channel: 'voice' },
  reopened: { kind: 'reopened', backTo: 'lay-out', channel: 'voice' },
  cardPlaced: { kind: 'cardPlaced', channel: 'voice' },
  packClosed: { kind: 'packClosed', signed: 0, hold: 'last', inspector: 'tomasz' },
  toolReturned: { kind: 'toolReturned', tool: 'paddle', count: 1 },
  signed: { kind: 'signed', packer: 'ines', sighting: 's-5', record: SAMPLE_RECORD },
  restored: { kind: 'restored', by: 'tomasz', sighting: 's-7', size: 12, root: 'ab'.repeat(32) },
  tagCleared: {
    kind: 'tagCleared',
    tag: 12,
    component: 'canopy',
    serial: 'QH-4471',
    inspector: 'tomasz',
    sighting: 's-6',
    finding: 'Repaired and inspected',
    channel: 'touch',
  },
  stopped: { kind: 'stopped', reason: 'Canopy torn at cell 4; tagged.' },
};

export const AT = '2026-11-25T14:03:11.250+01:00';

/** A draft of the body in the pack, by the packer. */
export function draftOf(pack: string, body: FactBody): FactDraft {
  return { pack, at: AT, by: 'ines', body };
}

/** A plain fact with a count, to tell many apart. */
export function countDraft(pack: string, count: number): FactDraft {
  return draftOf(pack, { kind: 'counted', stage: 'stage-1', noun: 'lines', count });
}
