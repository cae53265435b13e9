/** People of the loft and what each may do. */
import type { BadgeDigest, PersonId } from './ids';
import type { PlainDate } from './plain-date';
import { compareDates, sayDate } from './plain-date';
import type { Result } from './result';
import { ok, refused } from './result';

export const ROLES = ['rigger', 'inspector', 'lead', 'trainee', 'clerk'] as const;
export type Role = (typeof ROLES)[number];

/** Classes of hold; the procedure says which class each hold needs. */
export const HOLD_CLASSES = ['in-process', 'closing', 'final'] as const;
export type HoldClass = (typeof HOLD_CLASSES)[number];

export interface Person {
  readonly id: PersonId;
  readonly name: string;
  /** Certificate number as the log record states it (14 CFR 65.131(c)); null for those who sign nothing. */
  readonly certificate: string | null;
  readonly roles: readonly Role[];
  /** Assembly models this person may pack (rigger) or inspect (inspector). */
  readonly models: readonly string[];
  readonly holdClasses: readonly HoldClass[];
  readonly validFrom: PlainDate;
  /** Last day on which the qualification counts. */
  readonly validTo: PlainDate;
  readonly revoked: boolean;
  /** SHA-256 of each badge's identifier, in hex; a person may hold more than one. */
  readonly badges: readonly BadgeDigest[];
  /** Stored form of the PIN; absent for who has none. */
  readonly pin?: string | undefined;
  /** Identifying mark of this rigger's seal (14 CFR 65.133); absent for who has none. */
  readonly sealMark?: string | undefined;
}

/** What decides who may do what, as the journal keeps it: of the name too only the SHA-256 in hex. */
export type PersonInForce = Omit<Person, 'name' | 'pin'> & {
  /** Of id, line feed and name; absent in what earlier versions stored. */
  readonly nameDigest?: string | undefined;
};

export type StandingRefusal = 'not-yet-valid' | 'expired' | 'revoked' | 'no-certificate';
export type PackRefusal = 'not-a-rigger' | 'not-for-model' | StandingRefusal;
export type LeadRefusal = 'not-a-lead' | StandingRefusal;
export type EnrolRefusal = 'no-commands' | StandingRefusal;
export type InspectRefusal = 'is-packer' | 'not-an-inspector' | 'not-for-model' | 'not-for-class' | StandingRefusal;

/** Whose badge has this digest; null when nobody in the loft holds it. */
export function personOfBadge(people: readonly Person[], badgeDigest: BadgeDigest): Person | null {
  return people.find((person) => person.badges.includes(badgeDigest)) ?? null;
}

/** Whether the qualification as a whole counts on the day `on`. Both end days count. */
function inGoodStanding(person: Person, on: PlainDate): Result<void, StandingRefusal> {
  const { name, validFrom, validTo } = person;
  if (person.revoked) return refused('revoked', `The qualification of ${name} is revoked. Ask the lead.`);
  if (compareDates(on, validFrom) < 0) {
    return refused('not-yet-valid', `The qualification of ${name} begins on ${sayDate(validFrom)}. Ask the lead.`);
  }
  if (compareDates(on, validTo) > 0) {
    return refused('expired', `The qualification of ${name} ended on ${sayDate(validTo)}. Ask the lead.`);
  }
  if (person.certificate === null || person.certificate.trim() === '') {
    return refused('no-certificate', `${name} has no certificate number, so nothing can be signed. Ask the lead.`);
  }
  return ok(undefined);
}

/** May this person pack this model on this day? Only the role of rigger packs; a lead without it does not. */
export function mayPack(person: Person, model: string, on: PlainDate): Result<void, PackRefusal> {
  if (!person.roles.includes('rigger')) {
    return refused('not-a-rigger', `${person.name} is not a rigger. A qualified rigger must pack.`);
  }
  const standing = inGoodStanding(person, on);
  if (!standing.ok) return standing;
  if (!person.models.includes(model)) {
    return refused('not-for-model', `${person.name} is not qualified for model ${model}. Another rigger must pack.`);
  }
  return ok(undefined);
}

/** May this person put a journal back from a copy? */
export function mayRestore(person: Person, on: PlainDate): Result<void, LeadRefusal> {
  if (!person.roles.includes('lead')) {
    return refused('not-a-lead', `${person.name} is not a lead. A lead of this loft must restore.`);
  }
  return inGoodStanding(person, on);
}

/** May this person stand in for a packer who cannot hand over? */
export function mayStandIn(person: Person, on: PlainDate): Result<void, LeadRefusal> {
  if (!person.roles.includes('lead')) {
    return refused('not-a-lead', `${person.name} neither packs this nor leads the loft. The packer or a lead scans.`);
  }
  return inGoodStanding(person, on);
}

/** May the kiosk learn this person's voice on this day? Only of those whom it will hear at a pack. */
export function mayEnrol(person: Person, on: PlainDate): Result<void, EnrolRefusal> {
  if (!person.roles.includes('rigger') && !person.roles.includes('inspector')) {
    return refused('no-commands', `${person.name} neither packs nor inspects, so the kiosk learns no voice here.`);
  }
  return inGoodStanding(person, on);
}

/** What an inspection is about, and who has packed so far (person ids; all of them, after a hand-over). */
export interface InspectionOf {
  readonly model: string;
  readonly holdClass: HoldClass;
  readonly packers: readonly PersonId[];
  readonly on: PlainDate;
}

/** May this person take a tag off? An inspector for the model, and nobody who packed in the pack that was stopped. */
export function mayClearTag(
  person: Person,
  { model, packers, on }: Omit<InspectionOf, 'holdClass'>,
): Result<void, InspectRefusal> {
  const { name } = person;
  if (packers.includes(person.id)) {
    return refused('is-packer', `${name} packed when it was tagged and may not take the tag off. Call an inspector.`);
  }
  if (!person.roles.includes('inspector')) {
    return refused('not-an-inspector', `${name} is not an inspector. Call an inspector.`);
  }
  const standing = inGoodStanding(person, on);
  if (!standing.ok) return standing;
  if (person.models.includes(model)) return ok(undefined);
  return refused('not-for-model', `${name} is not qualified for model ${model}. Call another inspector.`);
}

/** May this person give a verdict? A packer of this pack never may, whatever else they are, so that is tried first. */
export function mayInspect(person: Person, inspection: InspectionOf): Result<void, InspectRefusal> {
  const { name } = person;
  const { model, holdClass, packers, on } = inspection;
  if (packers.includes(person.id)) {
    return refused('is-packer', `${name} has packed this assembly and may not inspect it. Call another inspector.`);
  }
  if (!person.roles.includes('inspector')) {
    return refused('not-an-inspector', `${name} is not an inspector. Call an inspector.`);
  }
  const standing = inGoodStanding(person, on);
  if (!standing.ok) return standing;
  if (!person.models.includes(model)) {
    return refused('not-for-model', `${name} is not qualified for model ${model}. Call another inspector.`);
  }
  if (!person.holdClasses.includes(holdClass)) {
    return refused('not-for-class', `${name} may not inspect holds of class ${holdClass}. Call another inspector.`);
  }
  return ok(undefined);
}
