/** The procedure in force: that which was agreed, with one content for each id and revision. */
import type { Procedure } from '../../../domain/procedure';
import type { Note } from '../finding';
import { digestOfProcedure } from '../journal/journal';
import type { FactOf } from './acts';
import { againstProcedure } from './closing-check';
import type { PackSoFar } from './pack-so-far';

/** What the loft's files said of assembly and procedure belongs to what was agreed. */
export function checkProcedure(pack: PackSoFar, { seq, body }: FactOf<'procedureInForce'>, note: Note): void {
  const { agreed, work, edition } = pack.account;
  const { assembly, procedure } = body;
  // Later on the books may name another procedure: then the pack must be stopped, which `againstAgain` looks at.
  const named = work !== null || agreed?.procedure === assembly.procedure;
  const fits =
    agreed?.assembly === assembly.id &&
    named &&
    (procedure === null || procedure.id !== agreed.procedure || procedure.revision === agreed.revision);
  if (!fits) note('identity', `Fact ${seq} is not about the assembly and procedure that were agreed.`);
  if (procedure === null) return;
  checkContent(pack, { seq, procedure }, note);
  for (const why of againstProcedure(procedure, edition)) note('order', `Fact ${seq}: ${why}`);
}

/** One id and revision has one content, in this pack and in the whole journal. */
function checkContent(
  { account, journal }: PackSoFar,
  { seq, procedure }: { readonly seq: number; readonly procedure: Procedure },
  note: Note,
): void {
  const digest = digestOfProcedure(procedure);
  const { agreed } = account;
  if (agreed !== null && agreed.digest === undefined && account.edition >= 2) {
    note('identity', `Fact ${seq}: the procedure was agreed without its digest.`);
  }
  if (agreed?.digest !== undefined && agreed.digest !== digest) {
    note('identity', `Fact ${seq} holds another procedure than the one whose digest was agreed.`);
  }
  const other = journal.otherContent(procedure, digest, seq);
  if (other === null) return;
  const { id, revision } = procedure;
  note('identity', `Procedure ${id}, revision ${revision}, is something else in fact ${seq} than in ${other.seq}.`);
}
