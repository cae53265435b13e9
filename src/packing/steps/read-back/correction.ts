/** Correction: takes back the last fact that can be taken back, after reading back which one it is. */
import type { Fact, FactBody } from '../../../domain/fact';
import type { Procedure } from '../../../domain/procedure';
import { stageOf } from '../../../domain/procedure';
import type { Here } from '../../machine/context';
import { answer, readBackOf } from '../../machine/decision';
import type { Act } from '../../machine/legal';
import { act } from '../../machine/legal';
import { procedureOf } from '../../state/pack-state';
import { itemName } from '../../state/place';
import type { Words } from '../../words/words';
import { countWords, plain, serialWords, words } from '../../words/words';

function stageWords(procedure: Procedure | null, id: string): Words {
  const stage = procedure === null ? null : stageOf(procedure, id);
  return stage === null ? plain(`stage ${id}`) : words`stage ${stage.number}, ${stage.title}`;
}

/** What a correctable fact was, in words that fit behind "take back". */
function describeFact(procedure: Procedure | null, body: FactBody): Words {
  const tool = (id: string): string => procedure?.tools.find((one) => one.id === id)?.name ?? id;
  const item = (id: string): string => (procedure === null ? id : itemName(procedure, id));
  switch (body.kind) {
    case 'componentIdentified':
      return words`${body.component}, serial ${serialWords(body.serial)}`;
    case 'toolIssued':
      return words`the count out of ${tool(body.tool)}`;
    case 'toolAccounted':
      return words`the count before closing of ${tool(body.tool)}`;
    case 'itemsAccounted':
      return plain('that the temporary items were seen');
    case 'cardPlaced':
      return plain('that the data card is in its pocket');
    case 'toolReturned':
      return words`the count back of ${tool(body.tool)}`;
    case 'counted':
      return words`the count of ${countWords(body.count, body.noun)}`;
    case 'stowed':
      return words`the last ${countWords(body.count, 'stows')}`;
    case 'measured':
      return words`the measured ${body.value}`;
    case 'stageConfirmed':
      return words`the end of ${stageWords(procedure, body.stage)}`;
    case 'itemPlaced':
      return words`that ${item(body.item)} went in`;
    case 'itemRemoved':
      return words`that ${item(body.item)} came out`;
    default:
      return plain('the last entry');
  }
}

/** The act, where there is something to take back. */
export function correctionActs(here: Here): readonly Act[] {
  const { loft, state } = here.context;
  const target: Fact | null = state.correctable;
  if (target === null) return [];
  const what = describeFact(procedureOf(loft, state), target.body);
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
