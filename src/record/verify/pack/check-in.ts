/** Recomputes a check-in that passed: complete, of the right models, in date, within life, nothing outstanding. */
import type { Component } from '../../../domain/component/component';
import type { Account } from './account';
import { dayNumber, monthsLater } from '../sums/calendar';

/** Everything that should have stopped this check-in on the day `on`. */
export function againstCheckIn({ work, identified, disagreed }: Account, on: string): readonly string[] {
  if (work === null) return ['What the loft’s files said of the assembly is not on record.'];
  const { assembly, procedure, rule } = work;
  const day = dayNumber(on);
  if (procedure === null || rule === null) return ['The loft had no procedure or no repack rule for the assembly.'];
  const wrong: string[] = [];
  if (disagreed) wrong.push('A mark that was scanned had contradicted the books.');
  if (!procedure.models.includes(assembly.model)) wrong.push(`The procedure is not for model ${assembly.model}.`);
  if (!(dayNumber(procedure.effectiveOn) <= day)) wrong.push('The procedure was not in force yet.');
  for (const { kind, models } of procedure.components) {
    const ofKind = assembly.components.filter((one) => one.kind === kind);
    const [one] = ofKind;
    if (one === undefined || ofKind.length > 1 || identified.get(kind) !== one.serial) {
      wrong.push(`Not exactly one ${kind} of the assembly was identified.`);
      continue;
    }
    if (!models.includes(one.model))
      wrong.push(`The ${kind} is of model ${one.model}, which the procedure does not name.`);
    wrong.push(...againstComponent(one, day));
  }
  for (const [kind, serial] of identified) {
    const known = assembly.components.some((one) => one.kind === kind && one.serial === serial);
    if (!known) wrong.push(`The ${kind} ${serial} is no part of ${assembly.id}.`);
  }
  return wrong;
}

function againstComponent(one: Component, day: number): readonly string[] {
  const wrong: string[] = [];
  const named = `The ${one.kind} ${one.serial}`;
  const dates = [one.madeOn, one.inServiceOn, one.lastPackedOn, one.lastInspectedOn].filter((date) => date !== null);
  if (!dates.every((date) => dayNumber(date) <= day && dayNumber(date) >= dayNumber(one.madeOn))) {
    wrong.push(`${named} has dates that cannot be.`);
  }
  // An overdue packing bars use, not packing. In service and never packed is a record that cannot be.
  if (one.lastPackedOn === null && one.inServiceOn !== null && dayNumber(one.inServiceOn) < day) {
    wrong.push(`${named} was in service and had never been packed.`);
  }
  const lives = [
    { from: one.madeOn, years: one.lifeYearsFromMade },
    { from: one.inServiceOn, years: one.lifeYearsFromService },
  ];
  for (const { from, years } of lives) {
    if (years !== null && !(from !== null && day < monthsLater(from, years * 12)))
      wrong.push(`${named} was beyond life.`);
  }
  if ((one.tags ?? []).length > 0) wrong.push(`${named} carried an open tag.`);
  if (one.outstanding.length > 0) wrong.push(`${named} had outstanding work.`);
  return wrong;
}
