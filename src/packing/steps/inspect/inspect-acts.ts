/** The inspection before packing: the packer looks over each component, and says that nothing was found, or what. */
import type { FactBody } from '../../../domain/fact';
import { inspectionFindings } from '../../../domain/component/inspection';
import type { Here } from '../../machine/context';
import type { Decision } from '../../machine/decision';
import { answer, readBackOf, refusal, remarkOn } from '../../machine/decision';
import type { Act, Said } from '../../machine/legal';
import { act, MAIN } from '../../machine/legal';
import type { Tasks } from '../../state/task';
import type { Words } from '../../words/words';
import { capital, plain, sentence, serialWords, words } from '../../words/words';

type InspectTask = Tasks['inspect'];

/** "Canopy, serial ...". */
export function partWords({ component, serial }: Pick<InspectTask, 'component' | 'serial'>): Words {
  return words`${capital(component)}, serial ${serialWords(serial)}`;
}

function inspected(here: Here<'inspect'>, finding: string | null, { channel }: Said): Decision {
  const { task } = here;
  const { component, serial } = task;
  const result = finding === null ? 'good' : 'finding';
  const body: FactBody = { kind: 'inspected', component, serial, result, finding, channel };
  const what = finding === null ? plain('every point is met.') : plain(`finding: ${sentence(finding)}`);
  const remark = finding === null ? answer(words`The ${component} is good.`) : null;
  const { packer: by } = here.context.state;
  return readBackOf(here, words`${partWords(task)}: ${what}`, { kind: 'store', by, bodies: [body], remark });
}

/** What can be said of the component that is inspected now. */
export function inspectActs(here: Here<'inspect'>): readonly Act[] {
  const { task } = here;
  const findings = inspectionFindings(task.procedure, task.component);
  const options = findings.map((label, index) => ({ number: index + 1, label }));
  const phrase = words`finding ${findings.length}`.say;
  return [
    act('nothingFound', MAIN, (_, said) => inspected(here, null, said)),
    act('finding', { phrase, input: { kind: 'choice', options, note: null } }, ({ number }, said) => {
      const finding = findings[number - 1];
      if (finding !== undefined) return inspected(here, finding, said);
      return remarkOn(here, refusal(words`There are ${findings.length} findings here. Say finding and its number.`));
    }),
  ];
}
