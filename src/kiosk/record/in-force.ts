/** What the loft's files say now, as facts: who may do what, and what an assembly is judged by. */
import { assert } from '../../domain/assert';
import type { FactBody } from '../../domain/fact';
import { procedureFor, repackRuleFor, RESUME_BADGE_MINUTES, type Loft } from '../../domain/loft';
import type { Procedure } from '../../domain/procedure';
import { makeCanonicalJson } from '../../record/chain/canonical-json';
import { textDigest } from '../../record/chain/text-digest';

/** The people file without names: a record's names can be compared with it, and nobody else's can be read from it. */
export function peopleInForce(loft: Loft): Extract<FactBody, { kind: 'peopleInForce' }> {
  const people = loft.people.map((person) => {
    const { id, name, certificate, roles, models, holdClasses, validFrom, validTo, revoked, badges, sealMark } = person;
    const nameDigest = textDigest(`${id}\n${name}`);
    const seal = sealMark === undefined ? {} : { sealMark };
    return { id, nameDigest, certificate, roles, models, holdClasses, validFrom, validTo, revoked, badges, ...seal };
  });
  return { kind: 'peopleInForce', people };
}

/** A procedure as facts hold it and as its digest is made. */
function bare(procedure: Procedure): Procedure {
  return withoutGaps({ ...procedure, digest: undefined });
}

/** SHA-256 in hex of the procedure as canonical JSON. */
export function procedureDigest(procedure: Procedure): string {
  const text = makeCanonicalJson(bare(procedure));
  assert(text.ok, 'a checked procedure can be written as JSON');
  return textDigest(text.value);
}

/** The loft with the digest of each procedure put on. */
export function withDigests(loft: Loft): Loft {
  const procedures = loft.procedures.map((one) => ({ ...one, digest: procedureDigest(one) }));
  return { ...loft, procedures };
}

/**
 * The assembly with its procedure, rule and settings; null when the loft does not have the assembly. `frozen` is the
 * procedure that the pack follows already, if any: files that changed since do not replace it.
 */
export function procedureInForce(
  loft: Loft,
  assemblyId: string,
  frozen: Procedure | null = null,
): Extract<FactBody, { kind: 'procedureInForce' }> | null {
  const assembly = loft.assemblies.find(({ id }) => id === assemblyId);
  if (assembly === undefined) return null;
  const filed = procedureFor(loft, assembly);
  const procedure = frozen ?? (filed === null ? null : bare(filed));
  const { place, verdictSeconds, resumeBadgeMinutes = RESUME_BADGE_MINUTES, pin, seals } = loft.settings;
  const rule = repackRuleFor(loft, assembly);
  return withoutGaps({
    kind: 'procedureInForce',
    assembly,
    procedure,
    rule,
    place,
    verdictSeconds,
    resumeBadgeMinutes,
    pin,
    seals,
  });
}

/** Members that are there but undefined have no JSON, and mean the same as absent ones. */
function withoutGaps<T>(value: T): T {
  return JSON.parse(JSON.stringify(value)) as T;
}
