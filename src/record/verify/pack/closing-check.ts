/**
 * The end of a pack, by the rules of its own day: what was counted before the container was closed and again before the
 * signature, the card in its pocket, the final inspection, and the packer's own rework.
 */
import type { Fact } from '../../../domain/fact';
import type { Procedure, Stage } from '../../../domain/procedure';
import type { Account, BodyOf } from './account';
import type { At, Note } from '../finding';
import type { FactOf } from './acts';

type Count = FactOf<'toolAccounted' | 'itemsAccounted'>;
type End = FactOf<'reopened' | 'cardPlaced' | 'packClosed'>;

/** What may happen between the signature and the end. */
const AFTER_SIGNATURE: readonly string[] = [
  'cardPlaced',
  'corrected',
  'inspectorCalled',
  'inspectorPresent',
  'verdictLapsed',
  'holdReleased',
  'holdReturned',
  'packClosed',
  'stopped',
  'stoodBy',
  'resumed',
  'handedOver',
  'restarted',
  'scanRefused',
  'clockJumped',
  'peopleInForce',
  'procedureInForce',
];

/** Whether this pack ends by a final inspection. Packs of earlier versions have none, and ended with the signature. */
function hasFinalHold({ procedure }: Account): boolean {
  return procedure?.finalHold !== undefined;
}

/** The rules of which a procedure must say how a pack ends. */
const ENDS_WITH_FINAL_HOLD = 2;

/** What a procedure must say of the end of a pack. */
export function againstProcedure({ stages, finalHold }: Procedure, edition: number): readonly string[] {
  if (finalHold === undefined) {
    return edition < ENDS_WITH_FINAL_HOLD ? [] : ['the procedure in force has no final inspection.'];
  }
  return [
    ...(finalHold.inspectorClass === 'final' ? [] : ['the final inspection is not of class final.']),
    ...(stages.some(({ closes }) => closes === true) ? [] : ['no stage of the procedure closes the container.']),
    ...(stages.some(({ id }) => id === 'signature') ? ['a stage has the name of the signature.'] : []),
  ];
}

/** Nothing is worked, counted or reopened in a pack that is signed. */
export function checkSignedPack({ signed, rechecked }: Account, { seq, body }: Fact, note: Note): void {
  const { kind } = body;
  // Facts that other rules added are judged there; these belong to the work.
  const isWork = 'stage' in body || 'tool' in body || 'item' in body || kind === 'itemsAccounted' || kind === 'signed';
  if (signed === null || AFTER_SIGNATURE.includes(kind)) return;
  // A signature on a release that no longer counts is given up again.
  const isFailed = rechecked?.passed === false;
  if (isWork || (kind === 'reopened' && !isFailed))
    note('order', `Fact ${seq} comes after the pack was signed and before it was closed.`);
}

/** Stages from the first closing one on begin only over what was counted. */
export function checkClosing(account: Account, stage: Stage, { seq, note }: At): void {
  const { procedure, accounted, tray } = account;
  if (procedure === null || !hasFinalHold(account)) return;
  const closing = procedure.stages.find(({ closes }) => closes === true);
  if (closing === undefined) return note('order', `Fact ${seq}: the procedure has no stage that closes the container.`);
  if (stage.number < closing.number) return;
  for (const { id } of procedure.tools) {
    if (!accounted.has(id)) note('tool', `Fact ${seq} closes the container before tool ${id} was counted.`);
  }
  if (procedure.temporaryItems.length > 0 && !tray.has('closing')) {
    note('item', `Fact ${seq} closes the container before the temporary items were looked at.`);
  }
}

/** The counts themselves: at their turn, and right. */
export function checkCount(account: Account, { seq, body }: Count, note: Note): void {
  const { procedure } = account;
  const closing = procedure?.stages.find(({ closes }) => closes === true);
  if (procedure === null || closing === undefined || !hasFinalHold(account)) {
    return note('order', `Fact ${seq} is a count that the procedure does not ask for.`);
  }
  const next = account.next();
  const isBefore = next !== null && next.hold === null && next.stage.id === closing.id;
  if (body.kind === 'toolAccounted') {
    if (!isBefore) note('order', `Fact ${seq} is a count before closing, which was not next.`);
    const out = account.out.get(body.tool);
    if (out === undefined || body.count !== out) {
      note('tool', `Fact ${seq}: ${body.count} of ${body.tool} were counted, ${String(out)} went out.`);
    }
    return;
  }
  const counts = body.before === 'closing' ? account.accounted : account.back;
  const isDue = body.before === 'closing' ? isBefore : next === null;
  if (!isDue || procedure.tools.some(({ id }) => !counts.has(id))) {
    note('order', `Fact ${seq} looks at the temporary items before it was time.`);
  }
  const inside = procedure.temporaryItems.filter(({ id }) => account.inside.has(id)).map(({ id }) => id);
  const out = procedure.temporaryItems.filter(({ id }) => !account.inside.has(id)).map(({ id }) => id);
  const same = JSON.stringify([body.out, body.inside]) === JSON.stringify([out, inside]);
  if (!same) note('item', `Fact ${seq} places the temporary items otherwise than they lay.`);
  const expected = body.before === 'closing' ? insideBefore(procedure.stages, closing) : [];
  const strange = [...account.inside].filter((id) => !expected.includes(id));
  if (strange.length > 0) note('item', `Fact ${seq}: ${strange.join(', ')} was inside.`);
}

function insideBefore(stages: readonly Stage[], closing: Stage): readonly string[] {
  const inside = new Set<string>();
  for (const stage of stages) {
    if (stage.number >= closing.number) break;
    if (stage.kind === 'place') inside.add(stage.item);
    if (stage.kind === 'remove') inside.delete(stage.item);
  }
  return [...inside];
}

/** Rework by the packer, the card, and the end. */
export function checkEnd(account: Account, { seq, body }: End, note: Note): void {
  const { procedure, signed, card } = account;
  if (procedure === null || !hasFinalHold(account)) {
    return note('order', `Fact ${seq} is of a kind that a pack without a final inspection does not have.`);
  }
  if (body.kind === 'cardPlaced') {
    if (signed === null || card) note('order', `Fact ${seq} places a card that was not signed, or was placed already.`);
    return;
  }
  if (body.kind === 'reopened') {
    const from = procedure.stages.findIndex(({ id }) => id === body.backTo);
    const isWorked = from >= 0 && procedure.stages.slice(from).some(({ id }) => account.stages.has(id));
    if (!isWorked) note('order', `Fact ${seq} reopens stage ${body.backTo}, where nothing was done.`);
    return;
  }
  const hold = procedure.finalHold?.id ?? '';
  if (signed === null || !card)
    note('order', `Fact ${seq} closes a pack that is not signed with its card in the pocket.`);
  if (body.signed !== signed)
    note('order', `Fact ${seq} closes the pack for another signature than the one that stands.`);
  if (body.hold !== hold || account.released.get(hold)?.inspector !== body.inspector) {
    note('hold', `Fact ${seq} closes the pack without the release of its final hold.`);
  }
}

/** What a signature needs beside the work itself. */
export function againstSignature(account: Account, body: BodyOf<'signed'>): readonly string[] {
  const { procedure, out, accounted, tray } = account;
  if (procedure === null) return [];
  if (!hasFinalHold(account)) return body.awaits === undefined ? [] : ['awaits a final inspection that there is not'];
  const uncounted = procedure.tools.filter(({ id }) => accounted.get(id) !== out.get(id));
  const places = procedure.temporaryItems.length === 0 ? [] : (['closing', 'signature'] as const);
  return [
    ...(body.awaits === undefined ? ['does not await the final inspection'] : []),
    ...uncounted.map(({ id }) => `has tool ${id} not counted before closing`),
    ...places.filter((one) => !tray.has(one)).map((one) => `has temporary items not looked at before the ${one}`),
  ];
}
