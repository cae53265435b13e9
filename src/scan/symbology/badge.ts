/** A badge's payload: `SB`, 80 random bits in 16 Crockford base 32 characters, one check character. */
import { assert } from '../../domain/assert';
import { ok, refused } from '../../domain/result';
import type { Result } from '../../domain/result';
import { mod37CheckCharacter, mod37Fits } from './mod37';

const PREFIX = 'SB';
/** Crockford base 32 leaves out I, L, O and U, so that nothing on a badge can be read aloud or typed wrongly. */
const BADGE_ID = /^[0-9A-HJKMNP-TV-Z]{16}$/;

export type BadgeFault = 'badge-damaged' | 'badge-check';

/** True for 16 characters of Crockford base 32. */
function isBadgeId(id: string): boolean {
  return BADGE_ID.test(id);
}

/** What is printed on the badge of `id`, which must be 16 Crockford characters. */
export function makeBadgePayload(id: string): string {
  assert(isBadgeId(id), 'a badge identifier is 16 Crockford base 32 characters');
  return PREFIX + id + mod37CheckCharacter(PREFIX + id);
}

/** Prefix, identifier and check. */
const LENGTH = PREFIX.length + 16 + 1;

/**
 * True when a payload claims to be a badge; whether it is one, `parseBadgePayload` says. A payload of nearly the
 * right length is claimed even with a hyphen in it, so that a misread badge can never pass for a serial.
 */
export function looksLikeBadge(payload: string): boolean {
  if (!payload.startsWith(PREFIX)) return false;
  return Math.abs(payload.length - LENGTH) <= 2 || /^[0-9A-Z*]{11,}$/.test(payload);
}

/**
 * The identifier in a badge's payload. The check covers the prefix too, so that no single wrong character, and no
 * swap of neighbours, can turn one badge into another.
 */
export function parseBadgePayload(payload: string): Result<string, BadgeFault> {
  const id = payload.slice(PREFIX.length, -1);
  if (!payload.startsWith(PREFIX) || !isBadgeId(id)) {
    return refused('badge-damaged', 'This badge cannot be read in full. Scan it again.');
  }
  if (!mod37Fits(payload)) return refused('badge-check', "The badge's check does not fit. Scan it again.");
  return ok(id);
}
