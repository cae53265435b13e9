/** The packer's own rework: "reopen stage four" takes back everything from there on, holds included. */
import type { Procedure, Stage } from '../../../domain/procedure';
import type { Here } from '../../machine/context';
import { answer, readBackOf, refusal, remarkOn } from '../../machine/decision';
import type { Act } from '../../machine/legal';
import { act } from '../../machine/legal';
import type { PackState } from '../../state/pack-state';
import { procedureOf } from '../../state/pack-state';
import { words } from '../../words/words';

/** The stages that hold work, or that work has gone past; none once the packer has signed, unless the checks fail. */
function reopenable(procedure: Procedure, state: PackState): readonly Stage[] {
  if (state.signed !== null && state.recheckFailed === null) return [];
  const last = procedure.stages.findLast(({ id }) => state.stages.has(id));
  return last === undefined ? [] : procedure.stages.filter(({ number }) => number <= last.number);
}

/** The act, where there is a stage to open again. It opens no hold: it shuts all that follow. */
export function reopenActs(here: Here): readonly Act[] {
  const { loft, state } = here.context;
  const procedure = procedureOf(loft, state);
  const stages = procedure === null ? [] : reopenable(procedure, state);
  const last = stages.at(-1);
  if (last === undefined) return [];
  const options = stages.map(({ number, title }) => ({ number, label: title }));
  const phrase = words`reopen stage ${last.number}`.say;
  return [
    act('reopenStage', { phrase, input: { kind: 'choice', options, note: null } }, (command, { channel }) => {
      const stage = stages.find(({ number }) => number === command.stage);
      if (stage === undefined) {
        const range =
          last.number === 1
            ? words`Only stage 1 has work in it.`
            : words`Only a stage from 1 to ${last.number} can be opened again.`;
        return remarkOn(here, refusal(words`Not taken: there is nothing to open in stage ${command.stage}. ${range}`));
      }
      const named = words`stage ${stage.number}, ${stage.title}`;
      return readBackOf(here, words`Reopen ${named}. Everything from there on is done again, holds included.`, {
        kind: 'store',
        by: state.packer,
        bodies: [{ kind: 'reopened', backTo: stage.id, channel }],
        remark: answer(words`Opened again: ${named}. Everything from there on is done again, holds included.`),
      });
    }),
  ];
}
