/** Asks of one fact whether it could happen there and then: at its step, by its rules, with its values. */
import type { Fact } from '../../../domain/fact';
import type { Note } from '../finding';
import { WHILE_FAILED, WHILE_STANDING_BY } from './acts';
import { againstCheckIn } from './check-in';
import { checkSignedPack } from './closing-check';
import { checkHold } from './hold-check';
import { againstAfterDamage, againstStop } from './hold-findings';
import type { PackSoFar } from './pack-so-far';
import { checkPacker } from './pack-so-far';
import { checkHandOver, checkOpener, checkRestarted, checkResumed } from './packer-check';
import { checkProcedure } from './procedure-check';
import { againstAgain, onEachDay } from './recheck';
import { checkSigned } from './signature-check';
import { checkStaged } from './stage-check';

/** What is wrong with the next fact of a pack that has not ended goes to `note`. */
export function checkAct(pack: PackSoFar, fact: Fact, note: Note): void {
  const { account, facts } = pack;
  const { seq, body } = fact;
  // A clock that was set back between two packs is told ahead of the opening.
  const begun = facts.some((one) => one.body.kind !== 'clockJumped');
  if (!begun && body.kind !== 'packOpened' && body.kind !== 'clockJumped')
    note('order', `Fact ${seq} begins a pack that nobody opened.`);
  if (account.standingBy && !WHILE_STANDING_BY.includes(body.kind)) {
    note('order', `Fact ${seq} happened while the pack stood by.`);
  }
  checkSignedPack(account, fact, note);
  const before = beforeStop(pack);
  const undone = againstAfterDamage(before, fact);
  if (undone !== null) note('hold', undone);
  if (account.rechecked?.passed === false && !WHILE_FAILED.includes(body.kind)) {
    note('order', `Fact ${seq} happened although the checks had failed when they were made again.`);
  }
  switch (body.kind) {
    case 'packOpened':
      if (begun) note('order', `Fact ${seq} opens a pack that was open already.`);
      return;
    case 'peopleInForce':
      return checkOpener(pack, { ...fact, body }, note);
    case 'procedureInForce':
      return checkProcedure(pack, { ...fact, body }, note);
    case 'checkInPassed':
      for (const line of body.checks) if (line.passed !== true) note('check-in', `“${line.label}” did not pass.`);
      for (const why of onEachDay(pack.days, (on) => againstCheckIn(account, on))) note('check-in', why);
      return checkPacker(pack, { seq, packer: account.packer }, note);
    case 'recheckPassed':
      for (const line of body.checks) if (line.passed !== true) note('check-in', `“${line.label}” did not pass.`);
      for (const { what, detail } of againstAgain(account, pack.days)) note(what, `Fact ${seq}: ${detail}`);
      return;
    case 'inspectorPresent':
    case 'holdReleased':
    case 'holdReturned':
      return checkHold(pack, { ...fact, body }, note);
    case 'handedOver':
      return checkHandOver(pack, { ...fact, body }, note);
    case 'resumed':
      return checkResumed(pack, { ...fact, body }, note);
    case 'restarted':
      return checkRestarted(pack, { ...fact, body }, note);
    case 'stopped':
      for (const why of againstStop(before, fact, body)) note('who', why);
      return;
    case 'signed':
      return checkSigned(pack, { ...fact, body }, note);
    default:
      return checkStaged(account, fact, note);
  }
}

function beforeStop({ account, facts }: PackSoFar): Parameters<typeof againstStop>[0] {
  const { procedure, packer, identified, edition } = account;
  const fact = facts.at(-1);
  const of = fact?.body.kind === 'holdReturned' ? fact.body.hold : null;
  const hold = procedure?.stages.find((stage) => stage.hold?.id === of)?.hold ?? null;
  return { fact, hold, edition, packer, identified };
}
