/** A stage in which something is counted: the number that is affirmed must be the expected one. */
import { MOST_COUNTED } from '../../../../domain/enterable';
import type { Decision } from '../../../machine/decision';
import { answer, readBackOf, refusal, remarkOn } from '../../../machine/decision';
import type { Act } from '../../../machine/legal';
import { act, MAIN } from '../../../machine/legal';
import { taskKey } from '../../../state/task';
import { countGiven, exampleCount, isCountTold, isToldBefore } from '../../../words/blind';
import { isSoundCount, unsoundCount } from '../../../words/counting';
import { part } from '../../../words/prompt-parts';
import { countWords, words } from '../../../words/words';
import type { AtStage, StageForm, TakenBack } from '../stage-kind';

function countedBack({ here, stage }: AtStage<'count'>, counted: number): Decision {
  const { noun, expected } = stage;
  if (!isSoundCount(counted)) return remarkOn(here, unsoundCount());
  const asked = words`${countWords(counted, noun)}.`;
  if (counted !== expected) {
    const given = { step: taskKey(here.task), count: counted };
    const wrong = words`Not taken: ${countWords(counted, noun)} counted, ${expected} expected. Count again, or let the inspector decide.`;
    return readBackOf(here, asked, { kind: 'refuse', remark: refusal(wrong), given });
  }
  return readBackOf(here, asked, {
    kind: 'store',
    by: here.context.state.packer,
    bodies: [{ kind: 'counted', stage: stage.id, noun, count: counted }],
    remark: answer(words`${countWords(counted, noun)}, ${expected} expected.`),
  });
}

function acts(at: AtStage<'count'>): readonly Act[] {
  const { noun, expected } = at.stage;
  const differing = {
    ...MAIN,
    label: `Count ${noun}`,
    phrase: exampleCount(expected, noun),
    input: { kind: 'count', noun, max: MOST_COUNTED },
  } as const;
  return [act('count', differing, ({ count }) => countedBack(at, count))];
}

export const countForm: StageForm<'count'> = {
  acts,
  ask: ({ here, stage }) => [
    ...(isToldBefore(here) ? [part('todo', words`${stage.expected} expected.`)] : []),
    part('say', words`Say the number and the word ${stage.noun}.`),
  ],
  drawing: ({ here, stage: { noun, expected } }) => ({
    count: { noun, expected: isCountTold(here) ? expected : null, counted: countGiven(here) },
  }),
  isDone: ({ expected }, { counted }) => counted === expected,
  recorded: ({ noun }, { counted }) => ({ what: noun, value: countWords(counted ?? 0, noun).show }),
};

/** A count. */
export const countBack: TakenBack<'counted'> = ({ count, noun }) => words`the count of ${countWords(count, noun)}`;
