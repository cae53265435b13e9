/**
 * Explores the state graph of a pack breadth first: what every event leads to, until nothing new is found. Two moments
 * are the same state when they differ in nothing that decides what may come next.
 */
import { initialTransition } from 'xstate';
import type { Fact, FactDraft } from '../../../src/domain/fact';
import type { Loft } from '../../../src/domain/loft';
import { RESUME_BADGE_MINUTES } from '../../../src/domain/loft';
import type { SightingMeaning } from '../../../src/domain/sighting';
import type { PackEvent, PackInput } from '../../../src/packing/machine/event';
import type { PackSnapshot } from '../../../src/packing/machine/machine';
import { packMachine } from '../../../src/packing/machine/machine';
import { nextTask } from '../../../src/packing/state/next-task';
import { taskKey } from '../../../src/packing/state/task';
import { textDigest } from '../../../src/record/chain/text-digest';
import type { TakeStep } from '../inert-scope';
import { inertSteps } from '../inert-scope';

export interface Exploring {
  readonly loft: Loft;
  /** Everything that can happen next. What storage answers is added, and restarts, at once and after a long break. */
  readonly eventsAt: (node: Node) => readonly PackEvent[];
  /** What else makes two moments differ. */
  readonly keyOf?: (node: Node) => unknown;
}

export interface Node {
  readonly snapshot: PackSnapshot;
  readonly facts: readonly Fact[];
  readonly ms: number;
  readonly depth: number;
}

export interface Edge {
  readonly from: Node;
  readonly event: PackEvent | 'restart';
  readonly drafts: readonly FactDraft[];
  readonly to: Node;
  /** It leads to another state. */
  readonly moves: boolean;
}

export const iso = (ms: number): string => new Date(ms).toISOString();

/** What makes two moments of a pack the same for the question asked here. */
function keyOf({ loft, keyOf: more }: Exploring, node: Node): string {
  const { snapshot, ms } = node;
  const { context } = snapshot;
  const { presence, state, handOver } = context;
  return JSON.stringify([
    snapshot.value,
    taskKey(nextTask(loft, state)),
    state.packer,
    [...state.packers].sort(),
    [...state.identified.keys()].sort(),
    [...state.inspected].map(([kind, { result }]) => [kind, result]),
    state.recheckFailed !== null,
    [...state.verdictGivers].sort(),
    [...state.releases].map(([hold, { inspector }]) => [hold, inspector]).sort(),
    [...state.itemsIn],
    [...state.itemsAccounted],
    state.signed !== null,
    state.cardPlaced,
    [...state.stages.keys()],
    state.correctable?.body.kind,
    state.standingBySince !== null,
    presence?.inspector,
    // Time matters only for whether the next second still lies within it.
    presence !== null && ms + 1_000 >= Date.parse(presence.deadline),
    context.readBack?.words.show,
    context.readBack?.from,
    context.finding?.id,
    context.finding?.note,
    // Causes differ in words alone.
    context.stopping?.isVerdict,
    // So do reasons, but not whether one was given.
    handOver === null ? null : [handOver.to, handOver.reason !== null, handOver.leaving?.lead],
    context.badgeWanted,
    context.reading,
    context.owed.map(({ body }) => body.kind),
    context.pending?.from,
    context.pending?.drafts.map(({ body }) => body.kind),
    more?.(node),
  ]);
}

let sightings = 0;

/** A scan made at `at` that reaches the pack at `ms`. */
export function scan(meaning: SightingMeaning, ms: number, at: number): PackEvent {
  sightings += 1;
  const sighting = { id: `g${String(sightings)}`, at: iso(at), reader: 'camera', payloadDigest: 'x', meaning } as const;
  return { type: 'SIGHTED', sighting, at: iso(ms) };
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

type Step = Omit<Edge, 'moves'>;

function follow(steps: TakeStep, from: Node, event: PackEvent): Step {
  const [snapshot, actions] = steps(from.snapshot, event);
  // The hostile STORED names facts that were not sent; whatever it does, the journal does not grow by it.
  const grown = event.type === 'STORED' && snapshot.context.facts.length > from.facts.length;
  const facts = grown ? [...from.facts, ...event.facts] : from.facts;
  const ms = 'at' in event ? Math.max(from.ms, Date.parse(event.at)) : from.ms;
  return { from, event, drafts: draftsOf(actions), to: { snapshot, facts, ms, depth: from.depth + 1 } };
}

type Beginning = Omit<Node, 'snapshot'>;

function inputOf(loft: Loft, { facts, ms }: Beginning): PackInput {
  const opening = facts.length === 0 ? { packer: 'ada', badgeDigest: textDigest('B-ada') } : null;
  return { loft, pack: 'p', facts, opening, openElsewhere: [], at: iso(ms) };
}

function begin(loft: Loft, beginning: Beginning): Node {
  return { snapshot: initialTransition(packMachine, inputOf(loft, beginning))[0], ...beginning };
}

const MOST_NODES = 12_000;

export interface Explored {
  readonly edges: readonly Edge[];
  readonly nodes: readonly Node[];
}

/** Breadth first, one node for each key. */
export function explore(exploring: Exploring): Explored {
  const { loft, eventsAt } = exploring;
  const breakMs = (loft.settings.resumeBadgeMinutes ?? RESUME_BADGE_MINUTES) * 60_000 + 1_000;
  const beginning = { facts: [], ms: Date.parse('2026-11-25T09:00:00Z'), depth: 0 };
  const start = begin(loft, beginning);
  const steps = inertSteps(inputOf(loft, beginning));
  const keys = new Map<Node, string>([[start, keyOf(exploring, start)]]);
  const seen = new Set(keys.values());
  const nodes: Node[] = [start];
  const edges: Edge[] = [];
  // A restart knows the facts alone, so it leads to the same from wherever they were the same.
  const restarted = new Set<readonly Fact[]>();
  for (let index = 0; index < nodes.length; index += 1) {
    const from = nodes[index]!;
    const isStoring = from.snapshot.value === 'storing';
    const events = isStoring ? storageAnswers(from.snapshot, from.facts) : eventsAt(from);
    const next = events.map((event): Step => follow(steps, from, event));
    const isNew = from.facts.length > 0 && !restarted.has(from.facts);
    restarted.add(from.facts);
    for (const later of isNew ? [1_000, breakMs] : []) {
      next.push({
        from,
        event: 'restart',
        drafts: [],
        to: begin(loft, { facts: from.facts, ms: from.ms + later, depth: from.depth + 1 }),
      });
    }
    for (const edge of next) {
      const key = keyOf(exploring, edge.to);
      edges.push({ ...edge, moves: key !== keys.get(from) });
      if (seen.has(key)) continue;
      if (nodes.length >= MOST_NODES) throw new Error('the graph is larger than it should be');
      seen.add(key);
      keys.set(edge.to, key);
      nodes.push(edge.to);
    }
  }
  return { edges, nodes };
}

/** States, other than the two ends, that nothing which a person, a reader or the storage does leads out of. */
export function deadEnds({ edges, nodes }: Explored): readonly Node[] {
  const left = new Set(edges.flatMap(({ from, event, moves }) => (moves && event !== 'restart' ? [from] : [])));
  return nodes.filter((node) => !left.has(node) && !ENDS.has(String(node.snapshot.value)));
}

const ENDS: ReadonlySet<string> = new Set(['recorded', 'stopped']);

/** For whoever reads the tests' output. */
export function sayExplored(name: string, { edges, nodes }: Explored): string {
  return `${name}: ${String(nodes.length)} states, ${String(edges.length)} transitions`;
}
