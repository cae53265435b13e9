/** What the journal says about a pack and about the others that are open: the machine starts on it. */
import type { Fact } from '../../domain/fact';
import { ok, type Result } from '../../domain/result';
import type { LedgerFailure, LedgerPort } from '../../record/ledger';

export interface JournalInput {
  readonly facts: readonly Fact[];
  /** Serials that lie in other open packs of this kiosk. */
  readonly openElsewhere: readonly string[];
  /** The last facts of other packs: wrong PINs there cost waits here. */
  readonly elsewhere: readonly Fact[];
}

/** More than the tries of a whole day of guessing, each in a pack of its own, can bring. */
export const RECENT = 500;

/** Reads the pack (a new one has no facts) and the serials that other open packs hold. Any failure refuses the whole. */
export async function openPackInput(
  ledger: LedgerPort,
  pack: string,
  opening: object | null,
): Promise<Result<JournalInput, LedgerFailure>> {
  const open = await ledger.openPacks();
  if (!open.ok) return open;
  const facts = opening === null ? await ledger.read(pack) : ok([]);
  if (!facts.ok) return facts;
  const openElsewhere: string[] = [];
  for (const other of open.value.filter((id) => id !== pack)) {
    const journal = await ledger.read(other);
    if (!journal.ok) return journal;
    for (const { body } of journal.value) {
      if (body.kind === 'componentIdentified') openElsewhere.push(body.serial);
    }
  }
  const recent = await ledger.recent(RECENT);
  if (!recent.ok) return recent;
  const elsewhere = recent.value.filter((fact) => fact.pack !== pack);
  return ok({ facts: facts.value, openElsewhere, elsewhere });
}
