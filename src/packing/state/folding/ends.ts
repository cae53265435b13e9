/** What ends a pack: the signature, its card, the final release, or a stop. */
import { endsPack } from '../../../domain/fact';
import type { Loft } from '../../../domain/loft';
import { isReleased, procedureOf } from '../pack-state';
import type { FactOf, Folding, Folds } from './folding';

/** No signature stands any more, and no card with it. */
export function unsign(folding: Folding): void {
  folding.signed = null;
  folding.cardPlaced = false;
}

/** Fails closed: only the release of the final hold, for the signature that stands, closes a pack. */
function isClosedBy(loft: Loft, folding: Folding, { body }: FactOf<'packClosed'>): boolean {
  const procedure = procedureOf(loft, folding);
  if (!folding.cardPlaced || folding.signed?.seq !== body.signed) return false;
  // Where the loft has lost the procedure nobody can tell more, and what was closed stays closed.
  if (procedure === null) return true;
  return (
    procedure.finalHold?.id === body.hold &&
    isReleased(folding, body.hold) &&
    folding.releases.get(body.hold)?.inspector === body.inspector
  );
}

export const END_FOLDS: Folds<'signed' | 'cardPlaced' | 'packClosed' | 'stopped'> = {
  signed: (folding, { seq, body }) => {
    folding.spent.add(body.sighting);
    folding.signed = { seq, record: body.record };
    if (endsPack(body)) folding.ended = 'recorded';
  },
  cardPlaced: (folding) => {
    folding.cardPlaced = folding.signed !== null;
  },
  packClosed: (folding, fact, loft) => {
    if (isClosedBy(loft, folding, fact)) folding.ended = 'recorded';
  },
  stopped: (folding, { body }) => {
    folding.stopped = body;
    folding.ended = 'stopped';
  },
};
