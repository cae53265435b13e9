/** `assemblies.yaml`: what the loft packs, component by component. */
import { z } from 'zod';
import type { Assembly } from '../domain/component/component';
import { COMPONENT_KINDS } from '../domain/component/component';
import { checkShape } from './check-shape';
import { findDuplicates } from './duplicates';
import { parseLocated, refuseFile } from './located-yaml';
import type { Parsed, Problem } from './refusal';
import { date, id, listOf, mark, maybe, SENTENCE_MAX, serial, text, TITLE_MAX, whole } from './schema-parts';

export const ASSEMBLIES_MAX = 5_000;

const component = z.strictObject({
  kind: z.enum(COMPONENT_KINDS),
  model: text(TITLE_MAX),
  serial,
  otherMarks: listOf(mark, 0, 5).default([]),
  uii: mark.optional(),
  madeOn: date,
  // Null must be written out in these: "unknown" and "forgotten" are not the same.
  inServiceOn: date.nullable(),
  lifeYearsFromMade: whole(1, 60).nullable(),
  lifeYearsFromService: whole(1, 60).nullable(),
  lastPackedOn: date.nullable(),
  lastInspectedOn: date.nullable(),
  uses: whole(0, 10_000).nullable().optional(),
  outstanding: listOf(text(SENTENCE_MAX), 0, 20).default([]),
});

const assembly = z.strictObject({
  id,
  name: text(TITLE_MAX),
  model: text(TITLE_MAX),
  typeAndMake: text(SENTENCE_MAX),
  owner: z.strictObject({ name: text(TITLE_MAX), address: text(SENTENCE_MAX) }),
  components: listOf(component, 1, 12),
  procedure: id,
  repackRule: id,
  openAt: maybe(text(TITLE_MAX)),
});

const assembliesSchema = z.strictObject({ assemblies: listOf(assembly, 1, ASSEMBLIES_MAX) });

/** What assemblies may refer to: procedures that the loft has a file for (even a refused one), and repack rules. */
export interface KnownNames {
  readonly procedures: ReadonlySet<string>;
  readonly repackRules: ReadonlySet<string>;
}

function checkKinds(assembly: Assembly, path: readonly PropertyKey[]): readonly Problem[] {
  const kinds = assembly.components.map((one) => one.kind);
  const complete = kinds.length === COMPONENT_KINDS.length && COMPONENT_KINDS.every((kind) => kinds.includes(kind));
  if (complete) return [];
  const reason = `"${assembly.name}" has ${kinds.join(', ')}. It needs exactly one ${COMPONENT_KINDS.join(', one ')}.`;
  return [{ path: [...path, 'components'], fault: 'wrong-kinds', reason }];
}

function checkReferences(assembly: Assembly, path: readonly PropertyKey[], known: KnownNames): readonly Problem[] {
  const problems: Problem[] = [];
  if (!known.procedures.has(assembly.procedure)) {
    const reason = `There is no procedure "${assembly.procedure}". Add its file or correct the name.`;
    problems.push({ path: [...path, 'procedure'], fault: 'unknown-reference', reason });
  }
  if (!known.repackRules.has(assembly.repackRule)) {
    const reason = `There is no repack rule "${assembly.repackRule}" in the settings. Add it or correct the name.`;
    problems.push({ path: [...path, 'repackRule'], fault: 'unknown-reference', reason });
  }
  return problems;
}

/** Every mark in the loft leads to one item only, whether it is a serial or a further mark. */
function marksOf(
  assembly: Assembly,
  path: readonly PropertyKey[],
): readonly { name: string; path: readonly PropertyKey[] }[] {
  return assembly.components.flatMap((component, n) => {
    const at = [...path, 'components', n];
    return [
      { name: component.serial, path: [...at, 'serial'] },
      ...component.otherMarks.map((name, m) => ({ name, path: [...at, 'otherMarks', m] })),
      ...(typeof component.uii === 'string' ? [{ name: component.uii, path: [...at, 'uii'] }] : []),
    ];
  });
}

/**
 * Checks the assemblies file. `known` is null where the loft around it is not at hand (a file checked alone); then
 * what it refers to is not checked. Refusals carry file, line and reason.
 */
export function parseAssemblies(path: string, content: string, known: KnownNames | null): Parsed<readonly Assembly[]> {
  const located = parseLocated(path, content);
  if (!located.ok) return located;
  const shaped = checkShape(assembliesSchema, located.value);
  if (!shaped.ok) return refuseFile(located.value, shaped.problems);
  const { assemblies } = shaped.value;
  const placeOf = (index: number): readonly PropertyKey[] => ['assemblies', index];
  const names = assemblies.map((one, index) => ({ name: one.id, path: [...placeOf(index), 'id'] }));
  const marks = assemblies.flatMap((one, index) => marksOf(one, placeOf(index)));
  const problems = [
    ...findDuplicates(names, 'The assembly'),
    ...findDuplicates(marks, 'The serial or mark', 'duplicate-serial'),
    ...assemblies.flatMap((one, index) => checkKinds(one, placeOf(index))),
    ...assemblies.flatMap((one, index) => (known === null ? [] : checkReferences(one, placeOf(index), known))),
  ];
  return problems.length > 0 ? refuseFile(located.value, problems) : { ok: true, value: assemblies };
}
