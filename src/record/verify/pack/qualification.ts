/** Who may do what, by the people file that was in force: the verifier's own reading of it. */
import type { PersonInForce } from '../../../domain/person';
import { dayNumber } from '../sums/calendar';

/** What speaks against this person doing anything that is signed for on this day; null for nothing. */
function standing(person: PersonInForce, on: string): string | null {
  const day = dayNumber(on);
  if (person.revoked !== false) return 'is revoked';
  if (!(day >= dayNumber(person.validFrom))) return 'is not yet valid';
  if (!(day <= dayNumber(person.validTo))) return 'is expired';
  return typeof person.certificate === 'string' && person.certificate.trim() !== '' ? null : 'has no certificate';
}

/** What speaks against packing; `model` null asks for any model at all. */
export function againstPacking(person: PersonInForce | undefined, model: string | null, on: string): string | null {
  if (person === undefined) return 'is not in the people file';
  if (!person.roles.includes('rigger')) return 'is no rigger';
  const fits = model === null ? person.models.length > 0 : person.models.includes(model);
  return standing(person, on) ?? (fits ? null : `is not qualified for ${model ?? 'any model'}`);
}

/** What speaks against taking a tag off; a model that is not on record is asked of nobody. */
export function againstClearing(
  person: PersonInForce | undefined,
  of: { readonly packers: readonly string[]; readonly model: string | null; readonly on: string },
): string | null {
  if (person === undefined) return 'is not in the people file';
  if (of.packers.includes(person.id)) return 'packed when it was tagged';
  if (!person.roles.includes('inspector')) return 'is no inspector';
  const against = standing(person, of.on);
  if (against !== null) return against;
  return of.model === null || person.models.includes(of.model) ? null : `is not qualified for ${of.model}`;
}

/** What speaks against acting as a lead: standing in for a packer, or putting a journal back from a copy. */
export function againstLead(person: PersonInForce | undefined, on: string): string | null {
  if (person === undefined) return 'is not in the people file';
  return person.roles.includes('lead') ? standing(person, on) : 'is no lead';
}

export interface Inspecting {
  readonly model: string;
  readonly holdClass: string;
  readonly packers: readonly string[];
  readonly on: string;
}

/** What speaks against giving a verdict. */
export function againstInspecting(person: PersonInForce | undefined, of: Inspecting): string | null {
  if (person === undefined) return 'is not in the people file';
  if (of.packers.includes(person.id)) return 'has packed this assembly';
  if (!person.roles.includes('inspector')) return 'is no inspector';
  const against = standing(person, of.on);
  if (against !== null) return against;
  if (!person.models.includes(of.model)) return `is not qualified for ${of.model}`;
  return person.holdClasses.some((one) => one === of.holdClass)
    ? null
    : `may not inspect holds of class ${of.holdClass}`;
}
