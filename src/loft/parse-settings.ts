/** `loft.yaml`: the loft's own settings and its repack rules. */
import { z } from 'zod';
import type { LoftSettings } from '../domain/loft';
import { EXPECTED_SHOWN } from '../domain/loft';
import { LOUDSPEAKERS } from '../domain/loft';
import { PIN_POLICIES } from '../domain/pin';
import { BOUNDARIES } from '../domain/component/repack-rule';
import { LABEL_KINDS, SCANNER_KEYBOARDS } from '../domain/scanning';
import { checkShape } from './check-shape';
import { findDuplicates } from './duplicates';
import { parseLocated, refuseFile } from './located-yaml';
import type { Parsed, Problem } from './refusal';
import { id, listOf, maybe, SENTENCE_MAX, text, TITLE_MAX, whole } from './schema-parts';

const rule = z.strictObject({
  id,
  title: text(TITLE_MAX),
  /** Exactly one of the two. */
  days: maybe(whole(1, 5_000)),
  months: maybe(whole(1, 160)),
  boundary: z.enum(BOUNDARIES),
});

/** What a scanner sends around a reading: a few characters that a keyboard has, or GS, RS and the like as escapes. */
const around = z
  .string()
  .max(8)
  // eslint-disable-next-line no-control-regex -- scanners send just these around a reading
  .regex(/^[\u0001-\u007e]*$/, 'Scanners put only characters of a keyboard, or control characters, around a reading.')
  .default('');

const scanner = z.strictObject({
  prefix: around,
  suffix: around,
  keyboard: z.enum(SCANNER_KEYBOARDS).default('us'),
});

const settingsSchema = z.strictObject({
  name: text(TITLE_MAX),
  place: text(SENTENCE_MAX),
  table: text(TITLE_MAX),
  verdictSeconds: whole(5, 900),
  resumeBadgeMinutes: whole(1, 1_440).optional(),
  speakingRate: z.number().min(0.5).max(2),
  repackRules: listOf(rule, 1, 40),
  expectedShown: z.enum(EXPECTED_SHOWN).optional(),
  seals: z.boolean().optional(),
  pin: z.enum(PIN_POLICIES).optional(),
  loudspeaker: z.enum(LOUDSPEAKERS).optional(),
  scanner: scanner.optional(),
  code39Check: listOf(z.enum(LABEL_KINDS), 0, LABEL_KINDS.length).optional(),
});

type WrittenRule = z.infer<typeof rule>;

function intervalOf({ days, months }: WrittenRule): { readonly days: number } | { readonly months: number } | null {
  if (days !== null && months === null) return { days };
  return months !== null && days === null ? { months } : null;
}

/** Checks the settings file. Refusals carry file, line and reason. */
export function parseSettings(path: string, content: string): Parsed<LoftSettings> {
  const located = parseLocated(path, content);
  if (!located.ok) return located;
  const shaped = checkShape(settingsSchema, located.value);
  if (!shaped.ok) return refuseFile(located.value, shaped.problems);
  const { repackRules: written, ...rest } = shaped.value;
  const problems: Problem[] = [
    ...findDuplicates(
      written.map((one, index) => ({ name: one.id, path: ['repackRules', index, 'id'] })),
      'The repack rule',
    ),
  ];
  const repackRules = written.flatMap((one, index) => {
    const interval = intervalOf(one);
    if (interval !== null) return [{ id: one.id, title: one.title, interval, boundary: one.boundary }];
    const reason = 'A repack rule needs either "days" or "months". Write exactly one of the two.';
    problems.push({ path: ['repackRules', index], fault: 'either-or', reason });
    return [];
  });
  return problems.length > 0 ? refuseFile(located.value, problems) : { ok: true, value: { ...rest, repackRules } };
}
