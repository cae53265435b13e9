/** What happens when storage answers. */
import type { Fact, FactDraft } from '../../domain/fact';
import type { PackContext, Remark } from './context';
import { warning } from './decision';
import { agreedRemark } from '../steps/identify/identify';
import { nextTask } from '../state/next-task';
import { taskKey } from '../state/task';
import { isLongBreak } from '../steps/stand-by/long-break';
import { foldFacts } from '../state/fold';
import { plain } from '../words/words';

/** Whether two plain values hold the same, whatever the order of their keys. */
function same(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  const left = new Map(Object.entries(a));
  const right = new Map(Object.entries(b));
  return left.size === right.size && [...left].every(([key, value]) => right.has(key) && same(value, right.get(key)));
}

/** Whether these are the drafts that were sent, numbered after everything before: a replayed answer changes nothing. */
export function answersPending(context: PackContext, facts: readonly Fact[]): boolean {
  const drafts = context.pending?.drafts;
  if (drafts?.length !== facts.length) return false;
  let last = context.facts.at(-1)?.seq ?? -1;
  return facts.every((fact, index) => {
    const { seq, ...rest } = fact;
    const inOrder = Number.isInteger(seq) && seq > last;
    last = seq;
    return inOrder && same(rest, drafts[index] satisfies FactDraft | undefined);
  });
}

/** Facts after which the step is read out in full, though it may be the same one. */
const READ_ANEW: ReadonlySet<string> = new Set([
  'packOpened',
  'restarted',
  'stoodBy',
  'resumed',
  'corrected',
  'holdReturned',
  'reopened',
]);

/** The drafts are stored: now, and only now, they count. */
export function takeStored(
  context: PackContext,
  facts: readonly Fact[],
  beside: readonly Fact[] = [],
): Partial<PackContext> {
  const { pending, loft } = context;
  const all = [...context.facts, ...[...facts, ...beside].sort((one, other) => one.seq - other.seq)];
  const state = foldFacts(loft, all);
  const sameStep = taskKey(nextTask(loft, context.state)) === taskKey(nextTask(loft, state));
  return {
    facts: all,
    state,
    owed: [],
    pending: null,
    readBack: null,
    finding: null,
    stopping: null,
    // A scan that was turned away ends no hand-over; whatever else is stored does.
    handOver: facts.every(({ body }) => body.kind === 'scanRefused') ? context.handOver : null,
    badgeWanted: state.standingBySince !== null && isLongBreak(loft, state, facts.at(-1)?.at ?? context.freshFrom),
    given: sameStep ? context.given : null,
    reading: false,
    presence: pending?.presence ?? null,
    remark: pending?.remark ?? agreedRemark(loft, facts),
    brief: sameStep && !facts.some(({ body }) => READ_ANEW.has(body.kind)),
    utterance: context.utterance + 1,
    freshFrom: facts.at(-1)?.at ?? context.freshFrom,
  };
}

/** Nothing was recorded: back to exactly where it was, and why. */
export function takeFailure(context: PackContext, detail: string): Partial<PackContext> {
  const remark: Remark = warning(plain(`Nothing was recorded. ${detail} Put that right, then do it again.`));
  return { pending: null, remark, utterance: context.utterance + 1 };
}
