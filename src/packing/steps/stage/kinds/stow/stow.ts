/** Stowing: one at a time or several at once, never more than planned, with the side that is due and the line left. */
import type { FactBody } from '../../../../../domain/fact';
import { compareQuantities, makeQuantity } from '../../../../../domain/quantity';
import { isUntil, leastStows, lineLeft, sideOfStow, statedBand } from '../../../../../domain/stow/stow-plan';
import type { Here } from '../../../../machine/context';
import type { Decision } from '../../../../machine/decision';
import { readBackOf, refusal, remarkOn, storeAct } from '../../../../machine/decision';
import type { Act, Said } from '../../../../machine/legal';
import { act, phraseOf } from '../../../../machine/legal';
import type { StowLedgerView } from '../../../../machine/view';
import { workOf } from '../../../../state/pack-state';
import { isToldBefore } from '../../../../words/blind';
import { isSoundCount } from '../../../../words/counting';
import type { PromptPart } from '../../../../words/prompt-parts';
import { part } from '../../../../words/prompt-parts';
import type { Words } from '../../../../words/words';
import { countWords, joinWords, nounFor, plain, words, wrapWords } from '../../../../words/words';
import type { AtStage, StageForm, TakenBack } from '../../stage-kind';
import { mayEnd, stowLedger } from './ledger';
import type { StowStage } from './line-on-hand';
import { lineAtStart, lineFault } from './line-on-hand';

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
  return storeAct(here, { at, body: { kind: 'stageConfirmed', stage: stage.id, channel } });
}

/** Stow, several stows, and the end of the stage. Once all are done, only the end is left. */
function acts({ here, stage }: AtStage<'stow'>): readonly Act[] {
  const left = stage.plan.stows - workOf(here.context.state, stage.id).stows;
  const end = act('stageComplete', { main: mayEnd(here.context.state, stage) }, (_, said) =>
    complete(here, stage, said),
  );
  if (left <= 0) return [end];
  const phrase = countWords(Math.min(left, 5), 'stows').say;
  return [
    act('stow', { main: true }, (_, { at }) => storeAct(here, { at, body: stowed(here, stage, 1) })),
    act('count', { phrase, label: 'Count stows', input: { kind: 'count', noun: 'stows', max: left } }, ({ count }) =>
      severalStows(here, stage, count),
    ),
    end,
  ];
}

/** How far the stowing is, and where the next stow lies. */
function ask({ here, stage }: AtStage<'stow'>): readonly PromptPart[] {
  const { state } = here.context;
  const { done, planned, least, nextSide, nextLoop } = stowLedger(state, stage);
  if (nextSide === null) {
    return [
      part('todo', words`All ${countWords(planned, 'stows')} are done.`),
      part('say', `Say ${phraseOf('stageComplete')} to go on.`),
    ];
  }
  const far =
    least === null
      ? words`${done} of ${countWords(planned, 'stows')}.`
      : words`${countWords(done, 'stows')}, ${least} to ${planned} may be made.`;
  const next =
    nextLoop === null ? words`Next, ${nextSide}.` : words`Next, ${nextSide}, loop ${nextLoop} from the centre.`;
  const end = mayEnd(state, stage) ? [part('say', `Say ${phraseOf('stageComplete')} if enough is stowed.`)] : [];
  return [part('todo', far), ...end, part('todo', next)];
}

/**
 * Stowing is told how long, how often the band goes round, and whose left and right are meant, once. A wanted remainder
 * is what to do and is told; one that only follows is told before it is measured to nobody but who may know.
 */
function told({ here, stage }: AtStage<'stow'>): Words {
  const { bight, wraps, planned, least, wanted, remainder, leadIn, viewpoint } = stowLedger(here.context.state, stage);
  const made = words`${countWords(planned, 'stows')} of ${bight}, ${wrapWords(wraps)}.`;
  const follows = isToldBefore(here) && remainder !== null ? words`${remainder} should remain.` : plain('');
  return joinWords([
    leadIn === null ? plain('') : words`Lay ${leadIn} from the links to the first stow.`,
    least === null ? made : words`${least} to ${made}`,
    wanted === null ? follows : words`Stow until ${wanted.lowest} to ${wanted.highest} remain.`,
    plain(viewpoint === null ? '' : `Left and right are meant ${viewpoint}.`),
  ]);
}

/** The line that should remain is hidden: it is measured afterwards. */
function view({ here, stage }: AtStage<'stow'>): StowLedgerView {
  const ledger = stowLedger(here.context.state, stage);
  return isToldBefore(here) ? ledger : { ...ledger, lineAtStart: null, lineLeft: null, remainder: null };
}

export const stowForm: StageForm<'stow'> = {
  acts,
  ask,
  told,
  drawing: (at) => ({ stow: view(at) }),
  isDone: ({ plan }, { confirmed, stows }) => confirmed && stows >= leastStows(plan) && stows <= plan.stows,
  fault: (stage, state) => lineFault(state, stage),
  remains: ({ here, stage: { id, plan } }) =>
    words`Stows left${isUntil(plan) ? plain(' at most') : plain('')}: ${plan.stows - workOf(here.context.state, id).stows}.`,
  recorded: ({ plan }, { stows }) => ({
    what: 'stows',
    value: `${countWords(stows, 'stows').show} of ${makeQuantity(plan.bight)}`,
  }),
};

/** The stows that were made last. */
export const stowedBack: TakenBack<'stowed'> = ({ count }) => words`the last ${countWords(count, 'stows')}`;
