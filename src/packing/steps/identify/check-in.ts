/** Check-in: what the loft's files say about the components, the procedure and the rigger on the day. */
import type { Assembly, Component, ComponentKind } from '../../../domain/component/component';
import { checkComponent, COMPONENT_KINDS, componentOfSerial } from '../../../domain/component/component';
import type { CheckLine } from '../../../domain/fact';
import type { Loft } from '../../../domain/loft';
import { personById, procedureById, repackRuleFor } from '../../../domain/loft';
import { mayPack } from '../../../domain/person';
import type { PlainDate } from '../../../domain/plain-date';
import { compareDates, sayDate } from '../../../domain/plain-date';
import type { Procedure } from '../../../domain/procedure';
import type { PackState } from '../../state/pack-state';
import { capital, listOf } from '../../words/words';

/** What is checked against what. */
export interface Checking {
  readonly loft: Loft;
  readonly state: PackState;
  readonly assembly: Assembly;
  /** Null where the loft has no usable one. */
  readonly procedure: Procedure | null;
}

const line = (label: string, passed: boolean, detail: string): CheckLine => ({ label, passed, detail });

/** The one assembly to which every identified component belongs; null until all three agree. */
export function agreedAssembly(loft: Loft, identified: PackState['identified']): Assembly | null {
  const found = COMPONENT_KINDS.map((kind) => {
    const serial = identified.get(kind);
    return serial === undefined ? null : (componentOfSerial(loft.assemblies, serial)?.assembly ?? null);
  });
  const first = found[0] ?? null;
  return first !== null && found.every((assembly) => assembly?.id === first.id) ? first : null;
}

/** The assembly with this id; null when the loft has none. */
export function assemblyById(loft: Loft, id: string): Assembly | null {
  return loft.assemblies.find((assembly) => assembly.id === id) ?? null;
}

function procedureLines(assembly: Assembly, procedure: Procedure | null, on: PlainDate): readonly CheckLine[] {
  if (procedure === null) {
    const detail = `Procedure ${assembly.procedure} is missing or was refused at load. Ask the lead.`;
    return [line('Procedure', false, detail)];
  }
  const { title, revision, effectiveOn } = procedure;
  const named = `${title}, revision ${revision}`;
  const inForce = compareDates(effectiveOn, on) <= 0;
  const fits = procedure.models.includes(assembly.model);
  return [
    inForce
      ? line('Procedure', true, `${named}, in force since ${sayDate(effectiveOn)}.`)
      : line('Procedure', false, `${named} comes into force only on ${sayDate(effectiveOn)}. Ask the lead.`),
    fits
      ? line('Assembly model', true, `The procedure applies to model ${assembly.model}.`)
      : line('Assembly model', false, `The procedure does not apply to model ${assembly.model}. Ask the lead.`),
  ];
}

function completeLine(assembly: Assembly, procedure: Procedure | null, state: PackState): CheckLine {
  const needed = new Set<ComponentKind>([...COMPONENT_KINDS, ...(procedure?.components ?? []).map((one) => one.kind)]);
  const wrong = [...needed].filter((kind) => {
    const ofKind = assembly.components.filter((one) => one.kind === kind);
    return ofKind.length !== 1 || ofKind[0]?.serial !== state.identified.get(kind);
  });
  const complete = wrong.length === 0;
  const detail = complete
    ? `${capital(listOf([...needed]))} belong together.`
    : `Not exactly one ${listOf(wrong, 'or')} as recorded. Correct the record.`;
  return line('Assembly complete', complete, detail);
}

function modelLine(component: Component, procedure: Procedure): CheckLine {
  const { kind, model } = component;
  const fits = procedure.components.some((one) => one.kind === kind && one.models.includes(model));
  const detail = fits
    ? `${model} is named by the procedure.`
    : `${model} is no ${kind} of this procedure. Take the right one, or ask the lead.`;
  return line(`${capital(kind)}: model`, fits, detail);
}

function riggerLine({ loft, state, assembly }: Checking, on: PlainDate): CheckLine {
  const rigger = state.packer === null ? null : personById(loft, state.packer);
  if (rigger === null) return line('Rigger', false, 'Nobody known has opened this pack. Begin again with a badge.');
  const may = mayPack(rigger, assembly.model, on);
  return line('Rigger', may.ok, may.ok ? `${rigger.name} is qualified for ${assembly.model}.` : may.detail);
}

/** Everything that is checked at check-in and must hold until the signature. */
export function assemblyLines(checking: Checking, on: PlainDate): readonly CheckLine[] {
  const { loft, state, assembly, procedure } = checking;
  const rule = repackRuleFor(loft, assembly);
  const identified = assembly.components.filter((one) => state.identified.get(one.kind) === one.serial);
  return [
    completeLine(assembly, procedure, state),
    marksLine(state),
    ...(procedure === null ? [] : identified.map((component) => modelLine(component, procedure))),
    ...(rule === null
      ? [line('Repack rule', false, `The loft has no repack rule ${assembly.repackRule}. Ask the lead.`)]
      : identified.flatMap((component) => checkComponent(component, rule, on))),
    riggerLine(checking, on),
  ];
}

/** A mark that contradicted the books stops the pack, whatever was identified after it: it hangs on some part here. */
function marksLine({ markConflicts }: PackState): CheckLine {
  const [first] = markConflicts;
  return line('Marks', first === undefined, first ?? 'No mark that was scanned contradicts the books.');
}

/** Every line of the check-in of this assembly on the day `on`; one that fails stops the pack. */
export function checkInLines(checking: Omit<Checking, 'procedure'>, on: PlainDate): readonly CheckLine[] {
  const procedure = procedureById(checking.loft, checking.assembly.procedure);
  return [...procedureLines(checking.assembly, procedure, on), ...assemblyLines({ ...checking, procedure }, on)];
}
