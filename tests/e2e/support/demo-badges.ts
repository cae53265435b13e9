/** The demo's badges themselves, as they are printed: what the people file no longer says. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseBadges, type HeldBadge } from '../../../src/loft/parse-badges';
import { makeBadgePayload } from '../../../src/scan/symbology/badge';

const FILE = join(import.meta.dirname, '../../../demo-data/badges.yaml');

export function demoBadges(): readonly HeldBadge[] {
  const badges = parseBadges(FILE, readFileSync(FILE, 'utf8'), null);
  if (!badges.ok) throw new Error(badges.refused.map(({ reason }) => reason).join(' '));
  return badges.value;
}

/** What is scanned off a person's (first) badge. */
export function badgeOf({ id }: { readonly id: string }): string {
  const held = demoBadges().find(({ person }) => person === id);
  if (held === undefined) throw new Error(`${id} has no badge`);
  return makeBadgePayload(held.badge);
}
