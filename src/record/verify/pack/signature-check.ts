/** The packer's signature: everything done, released, counted and recomputed that it stands for. */
import type { Note } from '../finding';
import type { Account } from './account';
import type { FactOf } from './acts';
import { againstSignature } from './closing-check';
import { againstRecord } from './log-record';
import type { PackSoFar } from './pack-so-far';
import { checkFresh, checkPacker } from './pack-so-far';
import { againstInspection } from './stage-check';

/** What is signed was true at the signature, and is worked out again. */
export function checkSigned(pack: PackSoFar, fact: FactOf<'signed'>, note: Note): void {
  const { account } = pack;
  const { seq, body } = fact;
  if (account.checkedIn !== true) note('order', `Fact ${seq} signs a pack that was not checked in.`);
  const unseen = againstInspection(account);
  if (unseen !== null) note('inspection', `Fact ${seq} signs ${unseen}.`);
  if (body.packer !== account.packer) note('who', `Fact ${seq} is signed by ${body.packer}, who did not pack.`);
  checkPacker(pack, { seq, packer: body.packer }, note);
  checkFresh(pack, { seq, sighting: body.sighting }, note);
  const { pin = 'never' } = account.work ?? {};
  if (account.edition >= 2 && pin !== 'never' && body.pin !== true) {
    note('who', `Fact ${seq}: the PIN of ${body.packer} was wanted for the signature and not given.`);
  }
  checkGround(pack, fact, note);
  checkDone(account, fact, note);
}

/** A signature rests on checks made in the same breath, and on nothing that lies ahead of it. */
function checkGround({ account, facts }: PackSoFar, { seq, at }: FactOf<'signed'>, note: Note): void {
  const { edition, rechecked } = account;
  if (edition < 2) return;
  const again = rechecked?.passed === true && rechecked.occasion === 'signed' && rechecked.at === at;
  if (!again) note('order', `Fact ${seq} signs although the checks were not made again.`);
  const ahead = facts.find((fact) => Date.parse(fact.at) > Date.parse(at));
  if (ahead !== undefined) note('time', `Fact ${seq} is signed before fact ${ahead.seq}, on which it rests.`);
}

/** Stages, holds, tools, items and the record itself. */
function checkDone(account: Account, { seq, at, pack, body }: FactOf<'signed'>, note: Note): void {
  const { procedure } = account;
  if (procedure === null) return note('record', `Fact ${seq}: the procedure is not on record.`);
  for (const stage of procedure.stages) {
    if (!account.isDone(stage)) note('order', `Fact ${seq} signs although stage ${stage.id} is not done.`);
    if (stage.hold !== null && !account.released.has(stage.hold.id)) {
      note('hold', `Fact ${seq} signs although hold ${stage.hold.id} is not released.`);
    }
  }
  for (const tool of procedure.tools) {
    const [out, back] = [account.out.get(tool.id), account.back.get(tool.id)];
    if (out !== tool.count || back !== out) note('tool', `Fact ${seq} signs although tool ${tool.id} is not back.`);
  }
  for (const why of againstSignature(account, body)) note('order', `Fact ${seq} is a signature that ${why}.`);
  for (const item of account.inside) note('item', `Fact ${seq} signs although item ${item} is in.`);
  for (const why of againstRecord(account, body.record, { pack, at })) note('record', why);
}
