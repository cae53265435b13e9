/**
 * A small pack for its state graph, with all that can happen to it: every command, every badge, late and replayed scans
 * and the clock; storage and restarts are added by `explore.ts`.
 */
import { expect } from 'vitest';
import type { Command, CommandName } from '../../../src/domain/command';
import type { Loft } from '../../../src/domain/loft';
import type { Hold, Procedure } from '../../../src/domain/procedure';
import type { PackEvent } from '../../../src/packing/machine/event';
import { isReleased } from '../../../src/packing/state/pack-state';
import { textDigest } from '../../../src/record/chain/text-digest';
import { iso, scan, type Node } from './explore';
import { LOFT, PEOPLE, SPRAT } from '../fixture';
/** Three stages, of which the last closes; a hold after the first and the final one; one tool, one temporary item. */
const SMALL: Procedure = {
  ...SPRAT,
  tools: SPRAT.tools.slice(1),
  stages: SPRAT.stages
    .filter(({ id }) => ['tie', 'untie', 'close'].includes(id))
    .map((stage, index) => ({ ...stage, number: index + 1, hold: stage.id === 'tie' ? holdAfter('tie') : null })),
  finalHold: {
    ...holdAfter('last'),
    inspectorClass: 'final',
    findings: [{ id: 'f', text: 'Card', backTo: 'signature' }],
  },
};

function holdAfter(id: string): Hold {
  const findings = [{ id: 'f', text: 'Loose', backTo: 'tie' }];
  return { id: `hold-${id}`, title: id, inspectorClass: 'closing', inspect: [], findings };
}
const ACTORS = ['ada', 'ron', 'ines', 'otto'];
export const QUALIFIED = ['ron', 'ines'];
/** Ines may let a pack go as well. */
const people = PEOPLE.filter(({ id }) => ACTORS.includes(id)).map((person) =>
  person.id === 'ines' ? { ...person, roles: [...person.roles, 'lead' as const] } : person,
);
/** With so short a break that the late ticks are long ones. */
export const loft: Loft = {
  ...LOFT,
  settings: { ...LOFT.settings, resumeBadgeMinutes: 1 },
  people,
  procedures: [SMALL],
};

const PLAIN = [
  ...(['affirm', 'negative', 'stageComplete', 'sayAgain', 'standBy', 'resume', 'correction'] as const),
  ...(['callInspector', 'itemPlaced', 'itemRemoved', 'releaseHold', 'returnHold', 'stopAndTag', 'stow'] as const),
  ...(['next', 'itemsSeen', 'cardPlaced', 'nothingFound', 'readList'] as const),
] as const satisfies readonly CommandName[];

const COMMANDS: readonly Command[] = [
  ...PLAIN.map((name) => ({ name })),
  { name: 'count', count: 1, noun: 'tools' },
  { name: 'measured', value: 100, unit: 'in' },
  { name: 'goToStage', stage: 1 },
  { name: 'goToStage', stage: 3 },
  { name: 'reopenStage', stage: 1 },
  { name: 'reopenStage', stage: 3 },
];

/** At a hold each kind of finding leads elsewhere; of causes, reasons, parts and points one stands for all. */
function findingsAt({ snapshot }: Node): readonly Command[] {
  const numbers = snapshot.value === 'choosingFinding' ? [1, 2, 3] : [1];
  return numbers.map((number) => ({ name: 'finding', number }));
}

const PARTS = ['P1-CANOPY', 'P1-BAG', 'P1-CONTAINER'];

/** Parts come in one order; each can come twice. */
function partsAt({ snapshot }: Node): readonly string[] {
  const { identified, agreed } = snapshot.context.state;
  return agreed === null ? PARTS.slice(0, identified.size + 1) : PARTS.slice(0, 1);
}

/** Everything that can happen next, one second on; the clock once beyond a verdict's time, and once set back. */
export function eventsAt(node: Node): readonly PackEvent[] {
  const { ms, facts } = node;
  const now = ms + 1_000;
  const badges = [...ACTORS, 'nobody'].flatMap((id): readonly PackEvent[] => [
    scan({ kind: 'badge', badgeDigest: textDigest(`B-${id}`) }, now, now),
    scan({ kind: 'badge', badgeDigest: textDigest(`B-${id}`) }, now, now - 60_000),
    scan({ kind: 'badge', badgeDigest: textDigest(`B-${id}`) }, now + 121_000, now),
  ]);
  // The scans that brought inspectors in, delivered once more.
  const spent = facts.flatMap(({ body, at }): readonly PackEvent[] => {
    if (body.kind !== 'inspectorPresent') return [];
    const meaning = { kind: 'badge', badgeDigest: textDigest(`B-${body.inspector}`) } as const;
    const sighting = { id: body.sighting, at, reader: 'camera', payloadDigest: 'x', meaning } as const;
    return [{ type: 'SIGHTED', sighting, at: iso(now) }];
  });
  return [
    ...[...COMMANDS, ...findingsAt(node)].map((command): PackEvent => ({
      type: 'COMMAND',
      command,
      channel: 'voice',
      at: iso(now),
    })),
    { type: 'COMMAND', command: { name: 'affirm' }, channel: 'voice', at: iso(now + 120_000) },
    { type: 'COMMAND', command: { name: 'affirm' }, channel: 'voice', at: iso(now + 601_000) },
    { type: 'COMMAND', command: { name: 'affirm' }, channel: 'voice', at: iso(now - 600_000) },
    scan({ kind: 'command', command: { name: 'affirm' } }, now, now),
    ...badges,
    ...spent,
    ...partsAt(node).map((serial) => scan({ kind: 'component', serial }, now, now)),
    { type: 'TICK', at: iso(now) },
    { type: 'TICK', at: iso(now + 120_000) },
  ];
}
/** Released by somebody who has not packed. */
export function openHolds({ snapshot }: Node): readonly string[] {
  const { state } = snapshot.context;
  return [...state.releases.keys()].filter((hold) => isReleased(state, hold));
}

export function expectWhole({ snapshot }: Node, holds: readonly string[]): void {
  const { state } = snapshot.context;
  expect([...state.releases.keys()].sort()).toEqual([...holds].sort());
  for (const { inspector } of state.releases.values()) expect(state.packers).not.toContain(inspector);
  expect(state.itemsIn.size).toBe(0);
  expect(state.toolsBack.get('cord')).toBe(1);
  expect(state.toolsAccounted.get('cord')).toBe(1);
}
