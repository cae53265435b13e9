/** Inspection holds: at their turn, by an inspector who may, on a fresh scan, and in time. */
import type { Note } from '../finding';
import type { FactOf } from './acts';
import { againstFinding } from './hold-findings';
import type { PackSoFar } from './pack-so-far';
import { checkFresh } from './pack-so-far';
import { againstInspector } from './recheck';

/** An inspector's scan, or the verdict behind it. */
export function checkHold(
  pack: PackSoFar,
  fact: FactOf<'inspectorPresent' | 'holdReleased' | 'holdReturned'>,
  note: Note,
): void {
  const { account, days } = pack;
  const { seq, body } = fact;
  const { finalHold, stages = [] } = account.procedure ?? {};
  const isFinal = finalHold?.id === body.hold;
  const next = account.next();
  const isNext = isFinal ? next === null && account.signed !== null && account.card : next?.hold?.id === body.hold;
  if (!isNext) note('order', `Fact ${seq}: hold ${body.hold} was not what was next.`);
  const hold = isFinal ? finalHold : stages.find((stage) => stage.hold?.id === body.hold)?.hold;
  if (account.people === null || hold === undefined || hold === null || account.work === null) {
    return note('who', `Fact ${seq}: whether ${body.inspector} may inspect ${body.hold} is not on record.`);
  }
  const { model } = account.work.assembly;
  const [against] = againstInspector(account, body.inspector, { model, holdClass: hold.inspectorClass, days });
  if (against !== undefined) note('who', `Fact ${seq}: ${body.inspector} ${against}, and may not inspect this.`);
  if (body.kind === 'inspectorPresent') {
    const { pin = 'never' } = account.work;
    const wanted = pin === 'eachHold' || (pin === 'firstUse' && !account.known.has(body.inspector));
    if (wanted && body.pin !== true) note('who', `Fact ${seq}: the PIN of ${body.inspector} was wanted and not given.`);
    return checkFresh(pack, { seq, sighting: body.sighting }, note);
  }
  checkPresence(pack, { ...fact, body }, note);
  if (body.kind !== 'holdReturned') return;
  for (const why of againstFinding(hold, body, seq)) note('hold', why);
  if (isFinal && body.backTo === 'signature') return;
  const backTo = stages.findIndex(({ id }) => id === body.backTo);
  const holds = isFinal ? stages.length : stages.findIndex((stage) => stage.hold?.id === body.hold);
  if (backTo < 0 || backTo > holds) note('hold', `Fact ${seq} goes back to a stage that lies not before its hold.`);
}

/** A verdict must follow its own inspector's scan, and in time. */
function checkPresence(
  { account }: PackSoFar,
  { seq, at, body }: FactOf<'holdReleased' | 'holdReturned'>,
  note: Note,
): void {
  const { present, work } = account;
  const same =
    present?.hold === body.hold && present.inspector === body.inspector && present.sighting === body.sighting;
  if (!same) return note('hold', `Fact ${seq} is a verdict without a fresh scan of its inspector.`);
  const seconds = (Date.parse(at) - Date.parse(present.at)) / 1000;
  if (!(seconds >= 0 && seconds < (work?.verdictSeconds ?? 0))) {
    note('hold', `Fact ${seq} is a verdict ${Math.round(seconds)} seconds after the scan.`);
  }
}
