/** Stowing: one at a time or several at once, never more than planned, with the side that is due and the line left. */
import type { FactBody } from '../../../domain/fact';
import type { Procedure } from '../../../domain/procedure';
import { canEndWith } from '../../../domain/plan-check';
import { compareQuantities } from '../../../domain/quantity';
import type { StowPlan } from '../../../domain/stow-plan';
import {
  isUntil,
  leastStows,
  lineLeft,
  lineUsed,
  loopOfStow,
  nextSide,
  remainderBand,
  sideOfStow,
  statedBand,
} from '../../../domain/stow-plan';
import type { Here } from '../../machine/context';
import { isSoundCount } from '../../words/counting';
import type { Decision } from '../../machine/decision';
import { readBackOf, refusal, remarkOn, storeAct } from '../../machine/decision';
import type { Act, Said } from '../../machine/legal';
import { act } from '../../machine/legal';
import type { StowStage } from './line-on-hand';
import { lineAtStart } from './line-on-hand';
import type { PackState } from '../../state/pack-state';
import { workOf } from '../../state/pack-state';
import type { StowLedgerView } from '../../machine/view';
import type { Words } from '../../words/words';
import { countWords, nounFor, plain, words } from '../../words/words';

/** On which loops the stows lie, where the plan says so. */
function loopsOf(plan: StowPlan, next: number | null): Pick<StowLedgerView, 'loops' | 'nextLoop'> {
  const loops = Array.from({ length: plan.stows }, (_, index) => loopOfStow(plan, index + 1));
  const known = loops.filter((loop) => loop !== null);
  if (known.length < loops.length) return {};
  const nextLoop = next === null ? null : loopOfStow(plan, next);
  return { loops: known, ...(nextLoop === null ? {} : { nextLoop }) };
}

/** Whether the stage may end now: a fixed number is made, or what is left can be what is wanted. */
export function mayEnd(state: PackState, stage: StowStage): boolean {
  const { plan } = stage;
  const done = workOf(state, stage.id).stows;
  return done >= leastStows(plan) && canEndWith(plan, lineAtStart(state, stage), done);
}

/** The running account of a stowing stage. */
export function stowLedger(state: PackState, stage: StowStage): StowLedgerView {
  const { plan } = stage;
  const done = workOf(state, stage.id).stows;
  const start = lineAtStart(state, stage);
  const side = nextSide(plan, done);
  return {
    done,
    planned: plan.stows,
    ...(isUntil(plan) ? { least: leastStows(plan), wanted: statedBand(plan) } : {}),
    nextSide: side,
    sides: Array.from({ length: plan.stows }, (_, index) => sideOfStow(plan, index + 1)),
    ...loopsOf(plan, side === null ? null : done + 1),
    ...(plan.viewpoint === undefined ? {} : { viewpoint: plan.viewpoint }),
    ...(plan.leadIn === undefined ? {} : { leadIn: plan.leadIn }),
    bight: plan.bight,
    span: plan.span,
    wraps: plan.wraps,
    lineAtStart: start,
    lineUsed: lineUsed(plan, done),
    lineLeft: lineLeft(start, plan, done),
    remainder: isUntil(plan) ? plan.remainder : remainderBand(plan, start).expected,
  };
}

/** The stowing stage with this id; null when the procedure has none. */
export function stowStageOf(procedure: Procedure, id: string): StowStage | null {
  const stage = procedure.stages.find((one) => one.id === id);
  return stage?.kind === 'stow' ? stage : null;
}

type StowedBody = Extract<FactBody, { kind: 'stowed' }>;

function stowed(here: Here, stage: StowStage, count: number): StowedBody {
  const total = workOf(here.context.state, stage.id).stows + count;
  return { kind: 'stowed', stage: stage.id, count, total, lastSide: sideOfStow(stage.plan, total) };
}

function severalStows(here: Here, stage: StowStage, count: number): Decision {
  const left = stage.plan.stows - workOf(here.context.state, stage.id).stows;
  if (!isSoundCount(count) || count < 1) return remarkOn(here, refusal(plain('Count at least one stow.')));
  if (count > left) {
    return remarkOn(
      here,
      refusal(
        words`Not taken: ${countWords(count, 'stows')} more would be too many, ${left} of ${stage.plan.stows} are left. Count the stows again.`,
      ),
    );
  }
  const body = stowed(here, stage, count);
  return readBackOf(here, words`${count} more ${nounFor(count, 'stows')}, ${body.total} of ${stage.plan.stows}.`, {
    kind: 'store',
    by: here.context.state.packer,
    bodies: [body],
    remark: null,
  });
}

/** Why a stage that ends with a wanted remainder goes on; nothing of what should be left now is told. */
function notReached(here: Here, stage: StowStage): Words {
  const { plan } = stage;
  const done = workOf(here.context.state, stage.id).stows;
  const { lowest, highest } = statedBand(plan);
  const left = lineLeft(lineAtStart(here.context.state, stage), plan, done);
  if (compareQuantities(left, lowest) >= 0 && done < plan.stows) {
    return words`Not complete: with ${countWords(done, 'stows')} more than ${highest} would remain. Stow on.`;
  }
  return words`Not complete: with ${countWords(done, 'stows')} what remains cannot be ${lowest} to ${highest}. Take stows back, or let the lead decide.`;
}

function complete(here: Here, stage: StowStage, { channel, at }: Said): Decision {
  const done = workOf(here.context.state, stage.id).stows;
  const missing = leastStows(stage.plan) - done;
  if (missing > 0) {
    return remarkOn(
      here,
      refusal(
        words`Not complete: ${missing} of ${isUntil(stage.plan) ? plain('at least ') : plain('')}${countWords(leastStows(stage.plan), 'stows')} ${plain(missing === 1 ? 'is' : 'are')} missing.`,
      ),
    );
  }
  if (!mayEnd(here.context.state, stage)) return remarkOn(here, refusal(notReached(here, stage)));
  return storeAct(here, at, { kind: 'stageConfirmed', stage: stage.id, channel });
}

/** Stow, several stows, and the end of the stage. Once all are done, only the end is left. */
export function stowActs(here: Here, stage: StowStage): readonly Act[] {
  const left = stage.plan.stows - workOf(here.context.state, stage.id).stows;
  const end = act('stageComplete', { main: mayEnd(here.context.state, stage) }, (_, said) =>
    complete(here, stage, said),
  );
  if (left <= 0) return [end];
  const phrase = countWords(Math.min(left, 5), 'stows').say;
  return [
    act('stow', { main: true }, (_, { at }) => storeAct(here, at, stowed(here, stage, 1))),
    act('count', { phrase, label: 'Count stows', input: { kind: 'count', noun: 'stows', max: left } }, ({ count }) =>
      severalStows(here, stage, count),
    ),
    end,
  ];
}
