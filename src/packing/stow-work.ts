/** Stowing: one at a time or several at once, never more than planned, with the side that is due and the line left. */
import type { FactBody } from '../domain/fact';
import type { Procedure } from '../domain/procedure';
import { lineLeft, lineUsed, nextSide, remainderBand, sideOfStow } from '../domain/stow-plan';
import type { Here } from './context';
import { isSoundCount } from './counting';
import type { Decision } from './decision';
import { readBackOf, refusal, remarkOn, storeAct } from './decision';
import type { Act, Said } from './legal';
import { act } from './legal';
import type { StowStage } from './line-on-hand';
import { lineAtStart } from './line-on-hand';
import type { PackState } from './pack-state';
import { workOf } from './pack-state';
import type { StowLedgerView } from './view';
import { countWords, nounFor, plain, words } from './words';

/** The running account of a stowing stage. */
export function stowLedger(state: PackState, stage: StowStage): StowLedgerView {
  const { plan } = stage;
  const done = workOf(state, stage.id).stows;
  const start = lineAtStart(state, stage);
  return {
    done,
    planned: plan.stows,
    nextSide: nextSide(plan, done),
    sides: Array.from({ length: plan.stows }, (_, index) => sideOfStow(plan, index + 1)),
    bight: plan.bight,
    span: plan.span,
    wraps: plan.wraps,
    lineAtStart: start,
    lineUsed: lineUsed(plan, done),
    lineLeft: lineLeft(start, plan, done),
    remainder: remainderBand(plan, start).expected,
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

function complete(here: Here, stage: StowStage, { channel, at }: Said): Decision {
  const done = workOf(here.context.state, stage.id).stows;
  const missing = stage.plan.stows - done;
  if (missing > 0) {
    return remarkOn(
      here,
      refusal(
        words`Not complete: ${missing} of ${countWords(stage.plan.stows, 'stows')} ${plain(missing === 1 ? 'is' : 'are')} missing.`,
      ),
    );
  }
  return storeAct(here, at, { kind: 'stageConfirmed', stage: stage.id, channel });
}

/** Stow, several stows, and the end of the stage. Once all are done, only the end is left. */
export function stowActs(here: Here, stage: StowStage): readonly Act[] {
  const left = stage.plan.stows - workOf(here.context.state, stage.id).stows;
  const end = act('stageComplete', { main: left === 0 }, (_, said) => complete(here, stage, said));
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
