/**
 * The whole state graph of a small pack, explored breadth first with every command, every badge, late and replayed
 * scans, the clock, the storage and restarts: a hold opens only by a fresh act of a qualified person who has not packed.
 */
import { initialTransition, transition } from 'xstate';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Command } from '../../src/domain/command';
import type { Fact, FactDraft } from '../../src/domain/fact';
import type { Loft } from '../../src/domain/loft';
import type { Procedure } from '../../src/domain/procedure';
import type { SightingMeaning } from '../../src/domain/sighting';
import type { PackEvent } from '../../src/packing/event';
import type { PackSnapshot } from '../../src/packing/machine';
import { packMachine, phaseOf } from '../../src/packing/machine';
import { nextTask, taskKey } from '../../src/packing/next-task';
import { LOFT, PEOPLE, SPRAT } from './fixture';

/** Two stages with a hold after each, one tool, one temporary item. */
const SMALL: Procedure = {
  ...SPRAT,
  tools: SPRAT.tools.slice(1),
  stages: SPRAT.stages
    .filter(({ id }) => id === 'tie' || id === 'untie')
    .map((stage, index) => ({
      ...stage,
      number: index + 1,
      hold: {
        id: `hold-${stage.id}`,
        title: stage.id,
        inspectorClass: 'final' as const,
        inspect: [],
        findings: [{ id: 'f', text: 'Loose', backTo: 'tie' }],
      },
    })),
};
const ACTORS = ['ada', 'ron', 'ines', 'otto'];
const QUALIFIED = ['ron', 'ines'];
const loft: Loft = { ...LOFT, people: PEOPLE.filter(({ id }) => ACTORS.includes(id)), procedures: [SMALL] };

interface Node {
  readonly snapshot: PackSnapshot;
  readonly facts: readonly Fact[];
  readonly ms: number;
  readonly depth: number;
}

interface Edge {
  readonly from: Node;
  readonly event: PackEvent | 'restart';
  readonly drafts: readonly FactDraft[];
  readonly to: Node;
}

const iso = (ms: number): string => new Date(ms).toISOString();

/** What makes two moments of a pack the same for the question asked here. */
function keyOf({ snapshot, ms }: Node): string {
  const { context } = snapshot;
  const { presence, state } = context;
  return JSON.stringify([
    snapshot.value,
    taskKey(nextTask(loft, state)),
    state.packer,
    [...state.packers].sort(),
    [...state.identified.keys()].sort(),
    [...state.verdictGivers].sort(),
    [...state.releases].map(([hold, { inspector }]) => [hold, inspector]).sort(),
    [...state.itemsIn],
    state.correctable?.body.kind,
    state.standingBySince !== null,
    presence?.inspector,
    // Time matters only for whether the next second still lies within it.
    presence !== null && ms + 1_000 >= Date.parse(presence.deadline),
    context.readBack?.words.show,
    context.readBack?.from,
    context.finding?.id,
    context.owed.map(({ body }) => body.kind),
    context.pending?.from,
    context.pending?.drafts.map(({ body }) => body.kind),
  ]);
}

const COMMANDS: readonly Command[] = [
  ...(
    ['affirm', 'negative', 'stageComplete', 'sayAgain', 'standBy', 'resume', 'correction', 'callInspector'] as const
  ).map((name) => ({ name })),
  ...(['itemPlaced', 'itemRemoved', 'releaseHold', 'returnHold', 'stopAndTag', 'stow', 'next'] as const).map(
    (name) => ({
      name,
    }),
  ),
  { name: 'count', count: 1, noun: 'tools' },
  { name: 'measured', value: 100, unit: 'in' },
  { name: 'finding', number: 1 },
  { name: 'goToStage', stage: 1 },
];

let sightings = 0;

function scan(meaning: SightingMeaning, ms: number, at: number): PackEvent {
  sightings += 1;
  const sighting = { id: `g${String(sightings)}`, at: iso(at), reader: 'camera', payload: 'x', meaning } as const;
  return { type: 'SIGHTED', sighting, at: iso(ms) };
}

/** Everything that can happen next, one second on; the clock once beyond a verdict's time, and once set back. */
function eventsAt({ snapshot, ms, facts }: Node): readonly PackEvent[] {
  if (snapshot.value === 'storing') return storageAnswers(snapshot, facts);
  const now = ms + 1_000;
  const badges = [...ACTORS, 'nobody'].flatMap((id): readonly PackEvent[] => [
    scan({ kind: 'badge', badge: `B-${id}` }, now, now),
    scan({ kind: 'badge', badge: `B-${id}` }, now, now - 60_000),
    scan({ kind: 'badge', badge: `B-${id}` }, now + 121_000, now),
  ]);
  // The scans that brought inspectors in, delivered once more.
  const spent = facts.flatMap(({ body, at }): readonly PackEvent[] => {
    if (body.kind !== 'inspectorPresent') return [];
    const meaning = { kind: 'badge', badge: `B-${body.inspector}` } as const;
    const sighting = { id: body.sighting, at, reader: 'camera', payload: 'x', meaning } as const;
    return [{ type: 'SIGHTED', sighting, at: iso(now) }];
  });
  return [
    ...COMMANDS.map((command): PackEvent => ({ type: 'COMMAND', command, channel: 'voice', at: iso(now) })),
    { type: 'COMMAND', command: { name: 'affirm' }, channel: 'voice', at: iso(now + 120_000) },
    { type: 'COMMAND', command: { name: 'affirm' }, channel: 'voice', at: iso(now - 600_000) },
    scan({ kind: 'command', command: { name: 'affirm' } }, now, now),
    ...badges,
    ...spent,
    ...['P1-BAG', 'P1-CONTAINER', 'P1-CANOPY'].map((serial) => scan({ kind: 'component', serial }, now, now)),
    { type: 'TICK', at: iso(now) },
    { type: 'TICK', at: iso(now + 120_000) },
  ];
}

function storageAnswers({ context }: PackSnapshot, facts: readonly Fact[]): readonly PackEvent[] {
  const drafts = context.pending?.drafts ?? [];
  const next = (facts.at(-1)?.seq ?? -1) + 1;
  return [
    { type: 'STORED', facts: drafts.map((draft, index) => ({ ...draft, seq: next + index })) },
    { type: 'STORED', facts: facts.slice(-1) },
    { type: 'STORE_FAILED', detail: 'full' },
    { type: 'COMMAND', command: { name: 'affirm' }, channel: 'voice', at: drafts[0]?.at ?? '' },
  ];
}

function draftsOf(actions: readonly { readonly type: string; readonly params?: unknown }[]): readonly FactDraft[] {
  return actions.flatMap(({ type, params }) => (type === 'append' ? (params as { drafts: FactDraft[] }).drafts : []));
}

function follow(from: Node, event: PackEvent): Edge {
  const [snapshot, actions] = transition(packMachine, from.snapshot, event);
  // The hostile STORED names facts that were not sent; whatever it does, the journal does not grow by it.
  const grown = event.type === 'STORED' && snapshot.context.facts.length > from.facts.length;
  const facts = grown ? [...from.facts, ...event.facts] : from.facts;
  const ms = 'at' in event ? Math.max(from.ms, Date.parse(event.at)) : from.ms;
  return { from, event, drafts: draftsOf(actions), to: { snapshot, facts, ms, depth: from.depth + 1 } };
}

function begin(facts: readonly Fact[], ms: number, depth: number): Node {
  const opening = facts.length === 0 ? { packer: 'ada', badge: 'B-ada' } : null;
  const input = { loft, pack: 'p', facts, opening, openElsewhere: [], at: iso(ms) };
  return { snapshot: initialTransition(packMachine, input)[0], facts, ms, depth };
}

const MOST_NODES = 12_000;

/** Breadth first, one node for each key. */
function explore(): { readonly edges: readonly Edge[]; readonly nodes: readonly Node[] } {
  const start = begin([], Date.parse('2026-11-25T09:00:00Z'), 0);
  const seen = new Set([keyOf(start)]);
  const nodes: Node[] = [start];
  const edges: Edge[] = [];
  for (let index = 0; index < nodes.length; index += 1) {
    const from = nodes[index]!;
    const next = eventsAt(from).map((event) => follow(from, event));
    if (from.facts.length > 0) {
      next.push({ from, event: 'restart', drafts: [], to: begin(from.facts, from.ms + 1_000, from.depth + 1) });
    }
    for (const edge of next) {
      edges.push(edge);
      const key = keyOf(edge.to);
      if (seen.has(key)) continue;
      if (nodes.length >= MOST_NODES) throw new Error('the graph is larger than it should be');
      seen.add(key);
      nodes.push(edge.to);
    }
  }
  return { edges, nodes };
}

describe('the whole state graph of a small pack', () => {
  let edges: readonly Edge[] = [];
  let nodes: readonly Node[] = [];
  // Generous: the machine may be busy with other things.
  beforeAll(() => {
    ({ edges, nodes } = explore());
  }, 120_000);

  it('is large enough to be worth exploring, and was explored to its end', () => {
    expect(nodes.length).toBeGreaterThan(1_000);
    expect(edges.length).toBeGreaterThan(20_000);
  });

  const phases = () => new Set(nodes.map(({ snapshot }) => phaseOf(snapshot)));

  it('reaches every phase except the blocked one, so that it says something about each', () => {
    expect([...phases()].sort()).toEqual(
      ['choosingFinding', 'choosingStage', 'countingToolsBack', 'countingToolsOut', 'identifying', 'inspecting'].concat(
        ['readingBack', 'recorded', 'restoring', 'signing', 'standingBy', 'stopped', 'waitingForInspector', 'working'],
      ),
    );
  });

  it('sends a release only on "affirm", from a read-back, by the inspector present, in time, who has not packed', () => {
    const releasing = edges.filter(({ drafts }) => drafts.some(({ body }) => body.kind === 'holdReleased'));
    expect(releasing.length).toBeGreaterThan(10);
    for (const { from, event, drafts } of releasing) {
      const { context } = from.snapshot;
      const { presence } = context;
      const said =
        event === 'restart'
          ? null
          : event.type === 'COMMAND'
            ? event.command
            : event.type === 'SIGHTED'
              ? event.sighting.meaning
              : null;
      expect(JSON.stringify(said)).toContain('affirm');
      expect(from.snapshot.value).toBe('readingBack');
      expect(context.readBack?.words.show).toMatch(/^Release/);
      expect(presence).not.toBeNull();
      const at = event !== 'restart' && 'at' in event ? Date.parse(event.at) : Number.NaN;
      expect(at).toBeGreaterThanOrEqual(Date.parse(presence!.at));
      expect(at).toBeLessThan(Date.parse(presence!.at) + 120_000);
      for (const { body, by } of drafts) {
        if (body.kind !== 'holdReleased') continue;
        expect(body.inspector).toBe(presence!.inspector);
        expect(by).toBe(presence!.inspector);
        expect(body.sighting).toBe(presence!.sighting);
        expect(QUALIFIED).toContain(body.inspector);
        expect(context.state.packers).not.toContain(body.inspector);
      }
    }
  });

  it('leaves a hold only by a release, a return, a correction of the stage before it, or the end of the pack', () => {
    const ways = new Set<string>();
    for (const { from, to } of edges) {
      const before = nextTask(loft, from.snapshot.context.state);
      const after = nextTask(loft, to.snapshot.context.state);
      if (before.kind !== 'hold' || taskKey(before) === taskKey(after)) continue;
      const stored = to.facts.slice(from.facts.length).map(({ body }) => body.kind);
      expect(stored.length).toBeGreaterThan(0);
      ways.add(stored.at(-1) ?? '');
    }
    expect([...ways].sort()).toEqual(['corrected', 'holdReleased', 'holdReturned', 'stopped']);
  });

  it('lets an inspector be present only by a fresh badge', () => {
    for (const { from, event, to } of edges) {
      const before = from.snapshot.context.presence;
      const after = to.snapshot.context.presence;
      if (after === null || after.sighting === before?.sighting) continue;
      const pending = from.snapshot.context.pending;
      expect(event).toMatchObject({ type: 'STORED' });
      expect(pending?.drafts.at(-1)?.body).toMatchObject({ kind: 'inspectorPresent', sighting: after.sighting });
    }
    const present = edges.filter(({ drafts }) => drafts.some(({ body }) => body.kind === 'inspectorPresent'));
    for (const { event } of present)
      expect(event).toMatchObject({ type: 'SIGHTED', sighting: { meaning: { kind: 'badge' } } });
  });

  it('comes out of a restart with nobody present and nothing read back', () => {
    for (const { event, to } of edges) {
      if (event !== 'restart') continue;
      expect(to.snapshot.context.presence).toBeNull();
      expect(to.snapshot.context.readBack).toBeNull();
    }
  });

  it('changes facts only when storage answers with what was sent', () => {
    for (const { from, event, to } of edges) {
      if (event === 'restart') continue;
      const before = from.snapshot.context;
      if (to.snapshot.context.facts === before.facts) continue;
      expect(event.type).toBe('STORED');
      const added = to.snapshot.context.facts.slice(before.facts.length);
      expect(added.map(({ pack, at, by, body }) => ({ pack, at, by, body }))).toEqual(before.pending?.drafts);
    }
  });

  it('signs only what is whole: both holds released by others than the packers, item out, tool back', () => {
    const signed = nodes.filter(({ snapshot }) => snapshot.value === 'recorded');
    expect(signed.length).toBeGreaterThan(0);
    for (const { snapshot } of signed) {
      const { state } = snapshot.context;
      expect(state.releases.size).toBe(2);
      for (const { inspector } of state.releases.values()) expect(state.packers).not.toContain(inspector);
      expect(state.itemsIn.size).toBe(0);
      expect(state.toolsBack.get('cord')).toBe(1);
    }
  });
});
