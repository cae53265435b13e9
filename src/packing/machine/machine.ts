/**
 * The pack as a machine. Its states say where a pack can rest and where each can lead; whatever is not drawn here cannot
 * happen. Facts change only by way of `storing`, whose one effect, `append`, the kiosk provides.
 */
import type { SnapshotFrom } from 'xstate';
import { assign, setup } from 'xstate';
import { assert } from '../../domain/assert';
import { EDITION } from '../../domain/fact';
import type { PackContext, Phase } from './context';
import { PHASES } from './context';
import { restingPhase } from './here';
import { judgedDays, latestDay } from '../state/days';
import { answer, draft } from './decision';
import { decide } from './decide';
import type { AppendParams, PackEvent, PackInput } from './event';
import { withFollowUps } from './follow-ups';
import { isLongBreak } from '../steps/stand-by/long-break';
import { foldFacts } from '../state/fold';
import { answersPending, takeFailure, takeStored } from './storing';
import { plain } from '../words/words';

type Target = Phase | 'storing';

const packSetup = setup({
  types: {
    context: {} as PackContext,
    events: {} as PackEvent,
    input: {} as PackInput,
  },
  guards: {
    leads: ({ context, event }, { phase, to }: { readonly phase: Phase; readonly to: Target }) =>
      decided(phase, context, event)?.to === to,
    isPending: ({ context }) => context.pending !== null,
    isAnswered: ({ context, event }) => event.type === 'STORED' && answersPending(context, event.facts),
    cameFrom: ({ context }, { phase }: { readonly phase: Phase }) => context.pending?.from === phase,
    rests: ({ context }, { phase }: { readonly phase: Phase }) => restingPhase(context) === phase,
  },
  actions: {
    /** Provided by the kiosk: stores the drafts, then sends STORED or STORE_FAILED. */
    append: (_, params: AppendParams) => void params,
    take: assign(
      ({ context, event }, { phase }: { readonly phase: Phase }) => decided(phase, context, event)?.patch ?? {},
    ),
    takeStored: assign(({ context, event }) =>
      event.type === 'STORED' ? takeStored(context, event.facts, event.beside) : {},
    ),
    takeFailure: assign(({ context, event }) =>
      takeFailure(context, event.type === 'STORE_FAILED' ? event.detail : 'The journal answered something else.'),
    ),
  },
});

function decided(phase: Phase, context: PackContext, event: PackEvent): ReturnType<typeof decide> {
  return event.type === 'STORED' || event.type === 'STORE_FAILED' ? null : decide(phase, context, event);
}

/** Where a pack can be stopped and tagged, so that a stop that is given up again leads back there. */
const STOPPABLE = [
  'identifying',
  'blocked',
  'inspectingPart',
  'countingToolsOut',
  'restoring',
  'working',
  'waitingForInspector',
  'inspecting',
  'checkingTools',
  'checkingItems',
  'countingToolsBack',
  'signing',
  'placingCard',
] as const satisfies readonly Phase[];

/** Edges from a phase to each of its successors, for one kind of event. */
function edges(phase: Phase, successors: readonly Target[]) {
  return [phase, ...successors].map((to) => ({
    guard: { type: 'leads' as const, params: { phase, to } },
    ...(to === phase ? {} : { target: to }),
    actions: [{ type: 'take' as const, params: { phase } }],
  }));
}

/** A phase that answers commands and scans. */
function answers(phase: Phase, ...successors: readonly Target[]) {
  const next = edges(phase, successors);
  return { on: { COMMAND: next, SIGHTED: next, FILES: edges(phase, ['storing']) } };
}

/** A phase in which an inspector may be present, whose time can run out. */
function timed(phase: Phase, ...successors: readonly Target[]) {
  return { on: { ...answers(phase, ...successors).on, TICK: edges(phase, ['storing']) } };
}

function initialContext(input: PackInput): PackContext {
  const { loft, pack, facts, opening, openElsewhere, elsewhere = [], at } = input;
  assert(facts.length > 0 || opening !== null, 'a new pack is opened by somebody');
  const stored = foldFacts(loft, facts);
  const ended = stored.ended !== null;
  const journalDay = latestDay(elsewhere);
  const journal = { loft, pack, facts, journalDay };
  // Kept, so that this pack can be judged by itself.
  const [, ahead] = judgedDays(journalDay, at);
  const known = ahead === undefined ? {} : { journalDay: ahead };
  // Nobody knows who stands at the table after a long break.
  const isLong = isLongBreak(loft, stored, at);
  const standsBy = isLong ? ({ standsBy: true } as const) : {};
  const resting = isLong && !ended ? { ...stored, standingBySince: stored.standingBySince ?? at } : stored;
  const first =
    facts.length === 0 && opening !== null
      ? draft(
          { pack },
          {
            by: opening.packer,
            at,
            body: {
              kind: 'packOpened',
              ...opening,
              table: loft.settings.table,
              edition: EDITION,
              ...known,
            },
          },
        )
      : draft({ pack }, { by: null, at, body: { kind: 'restarted', ...known, ...standsBy } });
  const owed = ended ? [] : [first];
  const context: PackContext = {
    loft,
    pack,
    openElsewhere,
    elsewhere,
    journalDay,
    facts,
    state: facts.length === 0 ? foldFacts(loft, [{ ...first, seq: 0 }]) : resting,
    owed,
    pending: null,
    readBack: null,
    presence: null,
    finding: null,
    stopping: null,
    handOver: null,
    badgeWanted: facts.length > 0 && isLong,
    given: null,
    reading: false,
    remark: null,
    brief: false,
    utterance: 0,
    seen: [],
    freshFrom: at,
  };
  if (ended) return context;
  const remark = facts.length === 0 ? null : answer(plain('Back after a break.'));
  const drafts = withFollowUps(journal, owed, at);
  return { ...context, pending: { drafts, from: restingPhase(context), remark, presence: null } };
}

export const packMachine = packSetup.createMachine({
  id: 'pack',
  context: ({ input }) => initialContext(input),
  initial: 'starting',
  states: {
    starting: { always: [{ guard: 'isPending', target: 'storing' }, { target: 'routing' }] },
    storing: {
      description: 'Drafts are on their way. Commands and scans are not taken; nothing recorded has changed.',
      entry: { type: 'append', params: ({ context }) => ({ drafts: context.pending?.drafts ?? [] }) },
      on: {
        STORED: [{ guard: 'isAnswered', target: 'routing', actions: 'takeStored' }, { target: 'failing' }],
        STORE_FAILED: { target: 'failing' },
      },
    },
    failing: {
      description: 'Back to exactly where it was.',
      always: PHASES.map((phase) => ({
        guard: { type: 'cameFrom' as const, params: { phase } },
        target: phase,
        actions: 'takeFailure' as const,
      })),
    },
    routing: {
      description: 'To where the facts say.',
      always: PHASES.map((phase) => ({ guard: { type: 'rests' as const, params: { phase } }, target: phase })),
    },
    identifying: answers('identifying', 'storing', 'readingBack', 'choosingCause'),
    blocked: answers('blocked', 'storing', 'readingBack', 'choosingCause'),
    inspectingPart: answers('inspectingPart', 'storing', 'readingBack', 'choosingCause'),
    countingToolsOut: answers('countingToolsOut', 'storing', 'readingBack', 'choosingCause'),
    restoring: answers('restoring', 'storing', 'readingBack', 'choosingCause'),
    working: answers('working', 'storing', 'readingBack', 'choosingCause'),
    waitingForInspector: answers('waitingForInspector', 'storing', 'readingBack', 'choosingCause'),
    inspecting: timed('inspecting', 'storing', 'readingBack', 'choosingFinding', 'choosingCause'),
    choosingFinding: timed(
      'choosingFinding',
      'storing',
      'choosingStage',
      'choosingPoint',
      'choosingComponent',
      'inspecting',
    ),
    choosingPoint: timed('choosingPoint', 'storing', 'choosingStage', 'choosingFinding'),
    choosingStage: timed('choosingStage', 'storing', 'readingBack', 'choosingFinding', 'choosingPoint'),
    choosingCause: timed('choosingCause', 'storing', 'choosingComponent', ...STOPPABLE),
    choosingComponent: timed('choosingComponent', 'storing', 'readingBack', 'choosingCause', 'choosingFinding'),
    checkingTools: answers('checkingTools', 'storing', 'readingBack', 'choosingCause'),
    checkingItems: answers('checkingItems', 'storing', 'readingBack', 'choosingCause'),
    placingCard: answers('placingCard', 'storing', 'readingBack', 'choosingCause'),
    countingToolsBack: answers('countingToolsBack', 'storing', 'readingBack', 'choosingCause'),
    signing: answers('signing', 'storing', 'readingBack', 'choosingCause'),
    standingBy: timed('standingBy', 'storing', 'handOverReason'),
    handOverReason: answers('handOverReason', 'storing', 'handOverLeaving', 'standingBy'),
    handOverLeaving: answers('handOverLeaving', 'storing', 'handOverLook', 'handOverReason', 'standingBy'),
    handOverLook: answers('handOverLook', 'storing', 'handOverLeaving', 'standingBy'),
    readingBack: timed('readingBack', 'storing', ...STOPPABLE, 'choosingStage', 'choosingComponent'),
    recorded: answers('recorded'),
    stopped: answers('stopped'),
  },
});

export type PackSnapshot = SnapshotFrom<typeof packMachine>;

/** The phase that a snapshot shows: while drafts are being stored, the one that they came from. */
export function phaseOf(snapshot: Pick<PackSnapshot, 'value' | 'context'>): Phase {
  const resting = PHASES.find((phase) => phase === snapshot.value);
  const phase = resting ?? snapshot.context.pending?.from;
  assert(phase !== undefined, 'a pack rests in a phase or is being stored');
  return phase;
}
