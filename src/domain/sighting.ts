/** One act of scanning, after its payload has been understood. */
import type { BadgeDigest, Serial, SightingId } from './ids';
import type { Command } from './command';
import type { Instant } from './instant';

export const READERS = ['camera', 'wedge', 'touch'] as const;
export type Reader = (typeof READERS)[number];

export type SightingMeaning =
  /**
   * A component's mark: the serial that it names, and the unique item identifier where it carries one. Whether the loft
   * knows them is decided by the pack.
   */
  | { readonly kind: 'component'; readonly serial: Serial; readonly uii?: string }
  /**
   * SHA-256 of a badge's random identifier, in hex, its check already verified; and what came of the PIN, where one was
   * asked for. The identifier itself would make a badge, so it stays at the edge.
   */
  | { readonly kind: 'badge'; readonly badgeDigest: BadgeDigest; readonly pin?: 'fits' | 'wrong' }
  | { readonly kind: 'command'; readonly command: Command }
  /** Read, but not understood: why, in words for the rigger. */
  | { readonly kind: 'refused'; readonly reason: string; readonly detail: string };

export interface Sighting {
  /** Unique for each act of scanning; a sighting is spent once. */
  readonly id: SightingId;
  readonly at: Instant;
  readonly reader: Reader;
  /** SHA-256 of exactly what the reader delivered, in hex. */
  readonly payloadDigest: string;
  readonly meaning: SightingMeaning;
}
