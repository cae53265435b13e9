/** Correction: takes back the last fact that can be taken back, after reading back which one it is. */
import type { FactBody } from '../../../domain/fact';
import type { Procedure } from '../../../domain/procedure';
import type { Here } from '../../machine/context';
import { answer, readBackOf } from '../../machine/decision';
import type { Act } from '../../machine/legal';
import { act } from '../../machine/legal';
import { procedureOf } from '../../state/pack-state';
import type { Words } from '../../words/words';
import { plain, serialWords, words } from '../../words/words';
import type { CorrectableKind } from '../../state/correctable';
import { confirmedBack } from '../stage/kinds/confirm';
import { countBack } from '../stage/kinds/count';
import { placedBack, removedBack } from '../stage/kinds/items';
import { measuredBack } from '../stage/kinds/measure';
import { stowedBack } from '../stage/kinds/stow/stow';
import type { TakenBack } from '../stage/stage-kind';

function toolName(procedure: Procedure | null, id: string): string {
  return procedure?.tools.find((one) => one.id === id)?.name ?? id;
}

/** What each fact that can be taken back was. */
const TAKEN_BACK: { readonly [F in CorrectableKind]: TakenBack<F> } = {
  componentIdentified: ({ component, serial }) => words`${component}, serial ${serialWords(serial)}`,
  toolIssued: ({ tool }, procedure) => words`the count out of ${toolName(procedure, tool)}`,
  toolAccounted: ({ tool }, procedure) => words`the count before closing of ${toolName(procedure, tool)}`,
  toolReturned: ({ tool }, procedure) => words`the count back of ${toolName(procedure, tool)}`,
  itemsAccounted: () => plain('that the temporary items were seen'),
  cardPlaced: () => plain('that the data card is in its pocket'),
  stageConfirmed: confirmedBack,
  counted: countBack,
  stowed: stowedBack,
  measured: measuredBack,
  itemPlaced: placedBack,
  itemRemoved: removedBack,
};

type BodyOf<F extends CorrectableKind> = Extract<FactBody, { readonly kind: F }>;
type Bodies = { readonly [F in CorrectableKind]: BodyOf<F> };

function describe<F extends CorrectableKind>(kind: F, body: Bodies[F], procedure: Procedure | null): Words {
  return TAKEN_BACK[kind](body, procedure);
}

/** The act, where there is something to take back. */
export function correctionActs(here: Here): readonly Act[] {
  const { loft, state } = here.context;
  const target = state.correctable;
  if (target === null) return [];
  const { body } = target;
  const what = describe(body.kind, body, procedureOf(loft, state));
  return [
    act('correction', {}, () =>
      readBackOf(here, words`Correction: take back ${what}.`, {
        kind: 'store',
        by: state.packer,
        bodies: [{ kind: 'corrected', fact: target.seq }],
        remark: answer(words`Taken back: ${what}.`),
      }),
    ),
  ];
}
