/** What the next fact of a pack is judged against. */
import type { Fact } from '../../../domain/fact';
import type { Note } from '../finding';
import type { Journal } from '../journal/journal';
import type { Account } from './account';
import { onEachDay } from './recheck';
import { againstPacking } from './qualification';

export interface PackSoFar {
  readonly account: Account;
  /** Knows what happened in the other packs. */
  readonly journal: Journal;
  /** The facts of this pack ahead of the one at hand. */
  readonly facts: readonly Fact[];
  /** The days by which the fact at hand is judged. */
  readonly days: readonly string[];
  /** When somebody last did something; refused scans aside. */
  readonly lastActMs: number;
}

/** A scan is good for one act. */
export function checkFresh(
  { journal }: PackSoFar,
  { seq, sighting }: { seq: number; sighting: string },
  note: Note,
): void {
  if (journal.spent.has(sighting)) note('hold', `Fact ${seq} rests on a scan that had been used already.`);
}

/** Whether this person may pack what lies on the table. */
export function checkPacker(
  { account, days }: PackSoFar,
  { seq, packer }: { readonly seq: number; readonly packer: string | null },
  note: Note,
): void {
  const { people, work } = account;
  if (people === null) return note('who', `Fact ${seq}: no people file in force is on record.`);
  const model = work?.assembly.model ?? null;
  const [against] = onEachDay(days, (on) => againstPacking(people.get(packer ?? ''), model, on));
  if (against !== undefined) note('who', `Fact ${seq}: ${String(packer)} ${against}, and may not pack this.`);
}
