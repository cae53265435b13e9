/** When a component is to be inspected: each before anything is packed; one finding stops the pack. */
import type { ComponentKind } from '../../../domain/component/component';
import type { CheckLine } from '../../../domain/fact';
import type { Procedure } from '../../../domain/procedure';
import type { PackState } from '../../state/pack-state';
import type { Task } from '../../state/task';

/** In the order in which parts are taken up: what is packed first, then what it goes into. */
const INSPECTION_ORDER: readonly ComponentKind[] = ['canopy', 'bag', 'container'];

/**
 * The next component to be inspected, or why nothing is packed. Packs of earlier versions, which asked for no
 * inspection, have their tools out by now.
 */
export function inspectionDue(procedure: Procedure, { inspected, identified, toolsOut }: PackState): Task | null {
  const found = [...inspected].flatMap(([kind, { result, finding }]) =>
    result === 'good' ? [] : [foundLine(kind, finding ?? 'Not good')],
  );
  if (found.length > 0) return { kind: 'blocked', checks: found };
  if (toolsOut.size > 0) return null;
  const parts = INSPECTION_ORDER.filter((kind) => identified.has(kind));
  const index = parts.findIndex((kind) => inspected.get(kind)?.serial !== identified.get(kind));
  const component = parts[index];
  if (component === undefined) return null;
  const serial = identified.get(component) ?? '';
  return { kind: 'inspect', procedure, component, serial, number: index + 1, of: parts.length };
}

function foundLine(kind: ComponentKind, finding: string): CheckLine {
  const label = `Inspection of the ${kind}`;
  return { label, passed: false, detail: `${finding}. Nothing is packed. Keep the ${kind} apart.` };
}
