/** `badges.yaml`: the badges themselves, from which the badge sheet is printed. Never served, so the page never sees it. */
import { z } from 'zod';
import type { Person } from '../domain/person';
import { checkShape } from './check-shape';
import { findDuplicates } from './duplicates';
import { parseLocated, refuseFile } from './located-yaml';
import { PEOPLE_MAX } from './parse-people';
import type { Parsed, Problem } from './refusal';
import { badge, id, listOf } from './schema-parts';

export interface HeldBadge {
  /** Id of the person in the people file. */
  readonly person: string;
  /** The 16 characters that were drawn by lot. */
  readonly badge: string;
}

/** What the file is compared with: the people, and what makes a badge's digest (hashing is none of this folder's work). */
export interface BadgesKnown {
  readonly people: readonly Person[];
  readonly digestOf: (badge: string) => string;
}

function unheld({ person, badge }: HeldBadge, index: number, { people, digestOf }: BadgesKnown): readonly Problem[] {
  const holder = people.find((one) => one.badges.includes(digestOf(badge)));
  if (holder?.id === person) return [];
  const reason =
    holder === undefined
      ? `Nobody in people.yaml has the digest of this badge. Put it with ${person}, or take the badge out here.`
      : `In people.yaml this is the badge of ${holder.id}. Correct one of the two files.`;
  return [{ path: ['badges', index, 'badge'], fault: 'unknown-reference', reason }];
}

const badgesSchema = z.strictObject({ badges: listOf(z.strictObject({ person: id, badge }), 0, 5 * PEOPLE_MAX) });

/** Checks the file of badges, by itself where `known` is null. Refusals carry file, line and reason. */
export function parseBadges(path: string, content: string, known: BadgesKnown | null): Parsed<readonly HeldBadge[]> {
  const located = parseLocated(path, content);
  if (!located.ok) return located;
  const shaped = checkShape(badgesSchema, located.value);
  if (!shaped.ok) return refuseFile(located.value, shaped.problems);
  const { badges } = shaped.value;
  const names = badges.map((one, index) => ({ name: one.badge, path: ['badges', index, 'badge'] }));
  const problems = [
    ...findDuplicates(names, 'The badge', 'duplicate-badge'),
    ...(known === null ? [] : badges.flatMap((one, index) => unheld(one, index, known))),
  ];
  return problems.length > 0 ? refuseFile(located.value, problems) : { ok: true, value: badges };
}
