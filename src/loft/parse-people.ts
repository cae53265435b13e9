/** `people.yaml`: who works in the loft, what each may do, and the digests of the badges they hold. */
import { z } from 'zod';
import { compareDates } from '../domain/plain-date';
import type { Person } from '../domain/person';
import { HOLD_CLASSES, ROLES } from '../domain/person';
import { checkShape } from './check-shape';
import { findDuplicates } from './duplicates';
import { parseLocated, refuseFile } from './located-yaml';
import type { Parsed, Problem } from './refusal';
import { badgeDigest, date, id, listOf, maybe, storedPin, text, TITLE_MAX } from './schema-parts';

export const PEOPLE_MAX = 500;
/** A mark is pressed into a seal of a few millimetres. */
const SEAL_MARK_MAX = 8;

const person = z.strictObject({
  id,
  name: text(TITLE_MAX),
  certificate: maybe(text(40)),
  roles: listOf(z.enum(ROLES), 1, ROLES.length),
  models: listOf(text(TITLE_MAX), 0, 100),
  holdClasses: listOf(z.enum(HOLD_CLASSES), 0, HOLD_CLASSES.length),
  validFrom: date,
  validTo: date,
  revoked: z.boolean(),
  badges: listOf(badgeDigest, 0, 5),
  pin: storedPin.optional(),
  sealMark: text(SEAL_MARK_MAX).optional(),
});

const peopleSchema = z.strictObject({ people: listOf(person, 1, PEOPLE_MAX) });

/** A certificate as it is compared: spaces and case are writing, not number. */
function bare(certificate: string): string {
  return certificate.normalize('NFKC').replace(/\s+/g, '').toUpperCase();
}

function reversed(person: Person, index: number): readonly Problem[] {
  if (compareDates(person.validFrom, person.validTo) <= 0) return [];
  const reason = `The qualification of ${person.name} ends on ${person.validTo}, before it begins. Correct the dates.`;
  return [{ path: ['people', index, 'validTo'], fault: 'dates-reversed', reason }];
}

/** Checks the people file. Refusals carry file, line and reason. */
export function parsePeople(path: string, content: string): Parsed<readonly Person[]> {
  const located = parseLocated(path, content);
  if (!located.ok) return located;
  const shaped = checkShape(peopleSchema, located.value);
  if (!shaped.ok) return refuseFile(located.value, shaped.problems);
  const { people } = shaped.value;
  const names = people.map((one, index) => ({ name: one.id, path: ['people', index, 'id'] }));
  const badges = people.flatMap((one, index) =>
    one.badges.map((held, n) => ({ name: held, path: ['people', index, 'badges', n] })),
  );
  const certificates = people.flatMap(({ certificate }, index) =>
    certificate === null ? [] : [{ name: bare(certificate), path: ['people', index, 'certificate'] }],
  );
  const marks = people.flatMap(({ sealMark }, index) =>
    sealMark === undefined ? [] : [{ name: bare(sealMark), path: ['people', index, 'sealMark'] }],
  );
  const problems = [
    ...findDuplicates(marks, 'The seal mark', 'duplicate-seal-mark'),
    ...findDuplicates(names, 'The person'),
    ...findDuplicates(badges, 'The badge', 'duplicate-badge'),
    ...findDuplicates(certificates, 'The certificate number', 'duplicate-certificate'),
    ...people.flatMap(reversed),
  ];
  return problems.length > 0 ? refuseFile(located.value, problems) : { ok: true, value: people };
}
