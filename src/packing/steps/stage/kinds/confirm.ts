/** A stage that is done and then confirmed. */
import { stageOf } from '../../../../domain/procedure';
import { storeAct } from '../../../machine/decision';
import { act, MAIN, phraseOf } from '../../../machine/legal';
import { part } from '../../../words/prompt-parts';
import { plain, words } from '../../../words/words';
import type { StageForm, TakenBack } from '../stage-kind';

export const confirmForm: StageForm<'confirm'> = {
  acts: ({ here, stage }) => [
    act('stageComplete', MAIN, (_, { channel, at }) =>
      storeAct(here, { at, body: { kind: 'stageConfirmed', stage: stage.id, channel } }),
    ),
  ],
  ask: () => [part('say', `Say ${phraseOf('stageComplete')} when it is done.`)],
  isDone: (_, { confirmed }) => confirmed,
};

/** That a stage was confirmed. */
export const confirmedBack: TakenBack<'stageConfirmed'> = ({ stage: id }, procedure) => {
  const stage = procedure === null ? null : stageOf(procedure, id);
  const named = stage === null ? plain(`stage ${id}`) : words`stage ${stage.number}, ${stage.title}`;
  return words`the end of ${named}`;
};
