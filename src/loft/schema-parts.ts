/** The small checked parts that the loft's files are made of. */
import { z } from 'zod';
import { parseStoredPin } from '../domain/pin';
import { parsePlainDate } from '../domain/plain-date';
import { parseQuantity } from '../domain/quantity';
import type { Fault } from './refusal';

/** Zod's own issues are translated by their code; ours carry their fault in the parameters. */
function raise(context: z.core.$RefinementCtx, fault: Fault, message: string): typeof z.NEVER {
  context.addIssue({ code: 'custom', message, params: { fault } });
  return z.NEVER;
}

/** Text that is shown and spoken: trimmed, not empty, no control characters, at most `max` characters. */
export const text = (max: number) =>
  z.string().transform((value, context): string => {
    const trimmed = value.trim();
    if (trimmed === '') return raise(context, 'bad-text', 'Text is empty. Write something or leave the field out.');
    if (trimmed.length > max) {
      return raise(context, 'bad-text', `Text is longer than ${String(max)} characters. Shorten it.`);
    }
    if (/\p{Cc}/u.test(trimmed)) {
      return raise(context, 'bad-text', 'Text holds a line break or control character. Write it on one line.');
    }
    return trimmed;
  });

export const TITLE_MAX = 80;
export const SENTENCE_MAX = 240;

/** Identifiers: small letters, digits and single hyphens, so that they also make a file name. */
export const id = z.string().transform((value, context): string => {
  if (/^[a-z0-9]+(-[a-z0-9]+)*$/.test(value) && value.length <= 48) return value;
  return raise(
    context,
    'bad-id',
    `"${value.slice(0, 60)}" is no identifier. Use small letters, digits and single hyphens, at most 48.`,
  );
});

export const date = z.string().transform((value, context): string => {
  const parsed = parsePlainDate(value);
  return parsed.ok ? parsed.value : raise(context, 'bad-date', parsed.detail);
});

export const quantity = z.string().transform((value, context) => {
  const parsed = parseQuantity(value);
  return parsed.ok ? parsed.value : raise(context, parsed.reason, parsed.detail);
});

export const whole = (least: number, most: number) => z.number().int().min(least).max(most);

/** A serial as it stands on a label: capitals and digits in groups joined by hyphens. */
export const serial = z.string().transform((value, context): string => {
  if (/^[A-Z0-9]+(-[A-Z0-9]+)+$/.test(value) && value.length >= 5 && value.length <= 24) return value;
  return raise(
    context,
    'bad-id',
    `"${value.slice(0, 60)}" is no serial. Use capitals and digits in groups joined by hyphens, 5 to 24 characters.`,
  );
});

/** Any other mark: the characters of a unique item identifier (MIL-STD-130N), at most 50. */
export const mark = z.string().transform((value, context): string => {
  if (/^[A-Z0-9/-]{5,50}$/.test(value)) return value;
  return raise(
    context,
    'bad-id',
    `"${value.slice(0, 60)}" is no mark. Use capitals, digits, hyphen and slash, 5 to 50.`,
  );
});

const BADGE_ID = /^[0-9A-HJKMNP-TV-Z]{16}$/;

/** A badge identifier: 16 characters of Crockford's base 32 (80 random bits). */
export const badge = z.string().transform((value, context): string => {
  if (BADGE_ID.test(value)) return value;
  return raise(context, 'bad-id', 'A badge identifier has 16 characters of base 32, without I, L, O and U.');
});

/** SHA-256 of a badge identifier. The identifier itself must not stand in a file that the page can fetch. */
export const badgeDigest = z.string().transform((value, context): string => {
  if (/^[0-9a-f]{64}$/.test(value)) return value;
  const what = BADGE_ID.test(value)
    ? 'The badge itself stands here, and this file is served. Put its SHA-256 here and the badge into badges.yaml.'
    : 'The SHA-256 of a badge has 64 hexadecimal digits, in small letters. Draw a badge with "stowcall badge".';
  return raise(context, 'bad-id', what);
});

/** A PIN in its stored form. */
export const storedPin = z.string().transform((value, context): string => {
  const parsed = parseStoredPin(value);
  return parsed.ok ? value : raise(context, 'bad-id', parsed.detail);
});

/** A field that may be left out; null then. */
export const maybe = <T extends z.ZodType>(schema: T) => schema.nullable().default(null);

/** A list with the least and the most that it may hold. */
export const listOf = <T extends z.ZodType>(schema: T, least: number, most: number) =>
  z.array(schema).min(least).max(most);
