/** Who packs: opening, handing over, pausing; and what the clock did meanwhile. */
import type { PersonId } from '../../../domain/ids';
import type { Folding, Folds } from './folding';
import { unsign } from './ends';

function becomePacker(folding: Folding, packer: PersonId): void {
  folding.packer = packer;
  if (!folding.packers.includes(packer)) folding.packers = [...folding.packers, packer];
}

export const PACKER_FOLDS: Folds<'packOpened' | 'handedOver' | 'stoodBy' | 'restarted' | 'resumed' | 'clockJumped'> = {
  packOpened: (folding, { body }) => becomePacker(folding, body.packer),
  handedOver: (folding, { body }) => {
    folding.spent.add(body.sighting);
    if (body.fromSighting !== undefined) folding.spent.add(body.fromSighting);
    // Whoever packs now signs for all of it.
    unsign(folding);
    becomePacker(folding, body.to);
  },
  stoodBy: (folding, { at }) => {
    folding.standingBySince = at;
  },
  restarted: (folding, { at, body }) => {
    if (body.standsBy === true) folding.standingBySince ??= at;
  },
  resumed: (folding, { body }) => {
    if (body.sighting !== undefined) folding.spent.add(body.sighting);
    folding.standingBySince = null;
  },
  clockJumped: (folding, { body }) => {
    folding.jumps = [...folding.jumps, body];
  },
};
