/** Which rules each pack was recorded under, and what the newer ones demand of how a fact is written. */
import type { Fact } from '../../../domain/fact';
import type { Note } from '../finding';
import { againstRules } from '../pack/procedure-rules';

/** The newest edition that this verifier knows. */
const NEWEST = 2;

export class Editions {
  private latest = 1;
  private readonly packs = new Map<string, number>();

  /** The edition of this pack, as far as its facts have been taken. */
  of(pack: string): number {
    return this.packs.get(pack) ?? this.latest;
  }

  /** The next fact of the journal, in its order. */
  take({ seq, pack, body }: Fact, note: Note): void {
    if (body.kind === 'packOpened') {
      const edition = body.edition ?? 1;
      if (edition > NEWEST)
        note('edition', `Fact ${seq} is of edition ${edition}, which is not known here. Use a newer verifier.`);
      // Otherwise less would be demanded of a forged pack simply by leaving its edition out.
      if (edition < this.latest)
        note('edition', `Fact ${seq} is of edition ${edition}, after packs of edition ${this.latest}.`);
      this.latest = Math.max(this.latest, edition);
      this.packs.set(pack, edition);
    }
    if (this.of(pack) >= 2) checkSecond({ seq, body }, note);
  }
}

/**
 * Since edition 2 no badge and no scan stands in a fact, every person has a name that can be compared, and nobody packs
 * by a procedure whose holds, stows and measures do not hold together.
 */
function checkSecond({ seq, body }: Pick<Fact, 'seq' | 'body'>, note: Note): void {
  if (body.kind === 'packOpened' && (body.badgeDigest === undefined || body.badge !== undefined)) {
    note('edition', `Fact ${seq} must hold the digest of the badge, and not the badge.`);
  }
  const isScan = body.kind === 'componentIdentified' || body.kind === 'scanRefused';
  if (isScan && (body.payloadDigest === undefined || body.payload !== undefined)) {
    note('edition', `Fact ${seq} must hold the digest of what was scanned, and not the scan.`);
  }
  if (body.kind === 'procedureInForce' && body.procedure !== null) {
    for (const { what, detail } of againstRules(body.procedure)) note(what, `Fact ${seq}: ${detail}.`);
  }
  if (body.kind === 'peopleInForce') {
    const nameless = body.people.find(({ nameDigest }) => nameDigest === undefined);
    if (nameless !== undefined)
      note('edition', `Fact ${seq} has no name digest of ${nameless.id}, so that any name would do.`);
  }
}
