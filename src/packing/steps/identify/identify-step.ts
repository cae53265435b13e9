/** The step of identifying: three scans, each read back. */
import { COMPONENT_KINDS } from '../../../domain/component/component';
import type { Here } from '../../machine/context';
import { phraseOf } from '../../machine/legal';
import type { Detail } from '../../machine/view';
import { personName } from '../../state/place';
import type { PromptPart } from '../../words/prompt-parts';
import { part } from '../../words/prompt-parts';
import { listOf } from '../../words/words';
import type { Step } from '../step';
import { usualActs } from '../usual-acts';
import { identifyScan, missingKinds } from './identify';

function prompt({ context }: Here): readonly PromptPart[] {
  const missing = missingKinds(context.state);
  if (missing.length === 0) {
    return [
      part('what', 'The three do not belong together.'),
      part('say', `Say ${phraseOf('correction')} to take back the last.`),
    ];
  }
  const name = personName(context, context.state.packer);
  if (context.brief || missing.length < COMPONENT_KINDS.length) {
    return [part('todo', `Scan the ${listOf(missing, 'or')}.`)];
  }
  return [part('what', `${name}, begin.`), part('todo', `Scan the ${listOf(missing)}, in any order.`)];
}

/** The serial that is being read back, by kind. */
function serialReadBack({ context }: Here): { readonly component: string; readonly serial: string } | null {
  const onAffirm = context.readBack?.onAffirm;
  const asked = onAffirm?.kind === 'store' ? onAffirm.bodies[0] : undefined;
  return asked?.kind === 'componentIdentified' ? asked : null;
}

function detail(here: Here): Detail {
  const asked = serialReadBack(here);
  const slots = COMPONENT_KINDS.map((component) => {
    const serial = here.context.state.identified.get(component) ?? null;
    if (serial !== null) return { component, serial, state: 'affirmed' as const };
    if (asked?.component === component) return { component, serial: asked.serial, state: 'readBack' as const };
    return { component, serial: null, state: 'missing' as const };
  });
  return { screen: 'identify', slots };
}

export const identifyStep: Step<'identify'> = {
  acts: usualActs,
  prompt,
  detail,
  scan: (here) =>
    here.context.state.agreed === null ? { wanted: 'component', take: (scan) => identifyScan(here, scan) } : null,
};
