/** What identifies a person, a pack, an act of scanning, a fact, a component or a badge. */
import type { Flavour } from './flavour';

/** A person of the people file. */
export type PersonId = Flavour<string, 'PersonId'>;

/** One packing, from the first scan to its end. */
export type PackId = Flavour<string, 'PackId'>;

/** One act of scanning; it counts once. */
export type SightingId = Flavour<string, 'SightingId'>;

/** The number of a fact in the journal, counted from 0 over the whole kiosk. */
export type FactSeq = Flavour<number, 'FactSeq'>;

/** Serial number of a component, as the loft's books have it. */
export type Serial = Flavour<string, 'Serial'>;

/** SHA-256 of a badge's identifier, in hex. The identifier itself would make a badge. */
export type BadgeDigest = Flavour<string, 'BadgeDigest'>;
