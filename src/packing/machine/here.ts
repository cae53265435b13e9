/** Where a pack stands, from the facts and from what the machine keeps. */
import type { Instant } from '../../domain/instant';
import type { PlainDate } from '../../domain/plain-date';
import { judgedDays, laterDay } from '../state/days';
import { nextTask } from '../state/next-task';
import type { TaskKind } from '../state/task';
import type { HandOver, Here, PackContext, Phase } from './context';

/** Looks up the task that belongs to a phase. */
export function hereOf(phase: Phase, context: PackContext): Here {
  return { phase, context, task: nextTask(context.loft, context.state) };
}

/** Where a pack rests while a task is to be done, unless something lies over it. */
export const PHASE_OF_TASK = {
  identify: 'identifying',
  blocked: 'blocked',
  inspect: 'inspectingPart',
  toolOut: 'countingToolsOut',
  restore: 'restoring',
  stage: 'working',
  hold: 'waitingForInspector',
  toolCheck: 'checkingTools',
  items: 'checkingItems',
  toolBack: 'countingToolsBack',
  sign: 'signing',
  card: 'placingCard',
  recorded: 'recorded',
  stopped: 'stopped',
} as const satisfies Readonly<Record<TaskKind, Phase>>;

/** The days by which a standing is judged at this moment (`judgedDays`). */
export function daysAt(
  { state, journalDay }: Pick<PackContext, 'state' | 'journalDay'>,
  at: Instant,
): readonly PlainDate[] {
  return judgedDays(laterDay(state.latestDay, journalDay), at);
}

/** Where a hand-over stands; standing by where none is under way. */
function handOverPhase(handOver: HandOver | null): Phase {
  if (handOver === null) return 'standingBy';
  if (handOver.reason === null) return 'handOverReason';
  return handOver.leaving === null ? 'handOverLeaving' : 'handOverLook';
}

/** The phase that the facts, and an inspector's presence, lead to. */
export function restingPhase(context: PackContext): Phase {
  const task = nextTask(context.loft, context.state);
  const ended = task.kind === 'recorded' || task.kind === 'stopped';
  if (!ended && context.state.standingBySince !== null) return handOverPhase(context.handOver);
  if (task.kind === 'hold' && context.presence?.hold === task.hold.id) return 'inspecting';
  return PHASE_OF_TASK[task.kind];
}
