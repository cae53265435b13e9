/** What can happen to a pack. Time and ids come in here and nowhere else (invariant 10). */
import type { BadgeDigest, PackId, PersonId, Serial } from '../../domain/ids';
import type { Channel, Command } from '../../domain/command';
import type { Fact, FactDraft } from '../../domain/fact';
import type { Instant } from '../../domain/instant';
import type { Loft } from '../../domain/loft';
import type { Sighting } from '../../domain/sighting';

/** An act of scanning reaches the pack. */
export interface Sighted {
  readonly type: 'SIGHTED';
  readonly sighting: Sighting;
  readonly at: Instant;
}

export type PackEvent =
  | { readonly type: 'COMMAND'; readonly command: Command; readonly channel: Channel; readonly at: Instant }
  | Sighted
  /** The drafts that `append` was given are durably stored; these are they, with their sequence numbers. */
  | {
      readonly type: 'STORED';
      readonly facts: readonly Fact[];
      /** Facts of this pack that the kiosk stored with them by itself. */
      readonly beside?: readonly Fact[];
    }
  /** They are not: the pack stays where it was and says why. */
  | { readonly type: 'STORE_FAILED'; readonly detail: string }
  /** The loft's files were read anew and say something else than before. Not to be sent while drafts are under way. */
  | { readonly type: 'FILES'; readonly loft: Loft; readonly at: Instant }
  /** About once a second; only a verdict's time can run out by it. */
  | { readonly type: 'TICK'; readonly at: Instant };

export interface PackInput {
  readonly loft: Loft;
  readonly pack: PackId;
  /** The pack's journal so far, in order; empty for a new pack. */
  readonly facts: readonly Fact[];
  /** For a new pack: who opens it. Ignored when there are facts. */
  readonly opening: { readonly packer: PersonId; readonly badgeDigest: BadgeDigest } | null;
  /** Serials that lie in other open packs of this kiosk. */
  readonly openElsewhere: readonly Serial[];
  /** The last facts of other packs, in order; none where absent. */
  readonly elsewhere?: readonly Fact[];
  readonly at: Instant;
}

/** The one effect of the machine: the kiosk stores the drafts, then sends STORED or STORE_FAILED. */
export interface AppendParams {
  readonly drafts: readonly FactDraft[];
}
