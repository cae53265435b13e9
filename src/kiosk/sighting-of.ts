/** From a reading to what the core may know of it: badges and raw scans go on as digests alone (invariant 12). */
import type { Instant } from '../domain/instant';
import type { Sighting, SightingMeaning } from '../domain/sighting';
import { textDigest } from '../record/chain/text-digest';
import type { RawReading } from '../scan/sighting';
import type { PayloadMeaning } from '../scan/symbology/understand-payload';

/** SHA-256 of a badge's identifier, in hex: what stands in the people file, enough to compare and useless to print. */
export function badgeDigest(badge: string): string {
  return textDigest(badge);
}

function withoutSecret(meaning: PayloadMeaning): SightingMeaning {
  return meaning.kind === 'badge' ? { kind: 'badge', badgeDigest: badgeDigest(meaning.badge) } : meaning;
}

/** The act of scanning, as the core may know it. */
export function sightingOf(
  raw: RawReading,
  meaning: PayloadMeaning,
  act: { readonly id: string; readonly at: Instant },
): Sighting {
  return {
    ...act,
    reader: raw.reader,
    payloadDigest: textDigest(raw.payload),
    meaning: withoutSecret(meaning),
  };
}
