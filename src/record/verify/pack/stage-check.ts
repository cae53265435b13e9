/** Checks the work of a pack fact by fact: at its turn, counted right, stowed on the due side, inside its tolerance. */
import type { Fact } from '../../../domain/fact';
import type { Stage } from '../../../domain/procedure';
import type { Account, BodyOf } from './account';
import { checkClosing, checkCount, checkEnd } from './closing-check';
import { isNear, isWithin, micrometres } from '../sums/lengths';
import type { At, Note } from '../finding';
import type { FactOf } from './acts';
import type { Band, StowStage } from '../sums/stow-sums';
import { computedBand, hasRoom, mayEndWith, remainderBand } from '../sums/stow-sums';

/** Everything that is neither a verdict, nor about people, nor the end of a pack. */
export function checkStaged(account: Account, fact: Fact, note: Note): void {
  const { body, seq } = fact;
  switch (body.kind) {
    case 'componentIdentified':
      if (account.agreed !== null) note('order', `Fact ${seq} identifies a component after the assembly was agreed.`);
      if (account.identified.has(body.component))
        note('identity', `Fact ${seq} identifies a second ${body.component}.`);
      return;
    case 'assemblyAgreed':
      if (account.agreed !== null) note('order', `Fact ${seq} agrees on an assembly a second time.`);
      return;
    case 'inspected':
      return checkInspected(account, { ...fact, body }, note);
    case 'toolIssued':
    case 'toolReturned':
      return checkTool(account, { ...fact, body }, note);
    case 'toolAccounted':
    case 'itemsAccounted':
      return checkCount(account, { ...fact, body }, note);
    case 'reopened':
    case 'cardPlaced':
    case 'packClosed':
      return checkEnd(account, { ...fact, body }, note);
    case 'stageConfirmed':
    case 'counted':
    case 'stowed':
    case 'measured':
      return checkWork(account, { ...fact, body }, note);
    case 'itemPlaced':
    case 'itemRemoved':
      return checkItem(account, { ...fact, body }, note);
    default:
  }
}

/** Once for each part, after the check-in and before the tools; good exactly where nothing was found. */
function checkInspected(account: Account, { seq, body }: FactOf<'inspected'>, note: Note): void {
  const { component, serial, result, finding } = body;
  if (account.checkedIn !== true) note('order', `Fact ${seq} inspects a ${component} before the check-in.`);
  if (account.out.size > 0) note('order', `Fact ${seq} inspects a ${component} after tools had gone out.`);
  if (account.inspected.has(component)) note('order', `Fact ${seq} inspects the ${component} a second time.`);
  if (account.identified.get(component) !== serial)
    note('identity', `Fact ${seq} inspects a ${component} that was not identified.`);
  if ((result === 'good') !== (finding === null)) note('inspection', `Fact ${seq} says both good and a finding.`);
}

/** Nothing is packed before every identified part was looked over and found good (asked for since edition 2). */
export function againstInspection({ edition, identified, inspected }: Account): string | null {
  if (edition < 2) return null;
  const missing = [...identified].find(([kind, serial]) => inspected.get(kind)?.serial !== serial);
  if (missing !== undefined) return `although the ${missing[0]} had not been inspected`;
  const bad = [...inspected].find(([, { good }]) => !good);
  return bad === undefined ? null : `although something was found on the ${bad[0]}`;
}

function checkTool(account: Account, { seq, body }: FactOf<'toolIssued' | 'toolReturned'>, note: Note): void {
  const tool = account.procedure?.tools.find(({ id }) => id === body.tool);
  if (tool === undefined) return note('tool', `Fact ${seq} counts a tool that the procedure does not have.`);
  if (body.kind === 'toolIssued') {
    if (account.checkedIn !== true) note('order', `Fact ${seq} hands out tools before the check-in.`);
    const against = againstInspection(account);
    if (against !== null) note('inspection', `Fact ${seq} hands out tools ${against}.`);
    if (body.count !== tool.count)
      note('tool', `Fact ${seq}: ${body.count} of ${tool.id} went out, not ${tool.count}.`);
    return;
  }
  if (account.next() !== null) note('order', `Fact ${seq} counts tools back before the work was done.`);
  const out = account.out.get(body.tool);
  if (body.count !== out) note('tool', `Fact ${seq}: ${body.count} of ${tool.id} came back, ${String(out)} went out.`);
}

type Work = FactOf<'stageConfirmed' | 'counted' | 'stowed' | 'measured'>;

function checkWork(account: Account, { seq, body }: Work, note: Note): void {
  const stage = stageAtTurn(account, body.stage, { seq, note });
  if (stage === null) return;
  if (body.kind === 'stageConfirmed') {
    const done =
      stage.kind === 'confirm' || (stage.kind === 'stow' && mayEndWith(stage.plan, account.done(stage.id).stows));
    if (!done) note('order', `Fact ${seq} ends stage ${stage.id}, which was not done.`);
    if (stage.kind === 'stow') checkRemains(account, stage, { seq, note });
  } else if (body.kind === 'counted') {
    const right = stage.kind === 'count' && stage.noun === body.noun && stage.expected === body.count;
    if (!right) note('count', `Fact ${seq}: ${body.count} ${body.noun} is not what stage ${stage.id} asks for.`);
  } else if (body.kind === 'stowed') checkStows(account, { stage, body }, { seq, note });
  else checkMeasure(account, { stage, body }, { seq, note });
}

/** Since edition 2 no stowing ends behind which no length could be measured that the plan lets through. */
function checkRemains(account: Account, stage: StowStage, { seq, note }: At): void {
  if (account.edition < 2) return;
  const { stows } = account.done(stage.id);
  const band = remainderBand(stage.plan, account.lineAtStart(stage), stows);
  if (!hasRoom(band)) note('stow', `Fact ${seq} ends stage ${stage.id}, after which nothing can be right.`);
}

/** The stage, when it is its turn: checked in, all tools out, everything before done, nothing else owed. */
function stageAtTurn(account: Account, id: string, { seq, note }: At): Stage | null {
  const { procedure } = account;
  const next = account.next();
  if (next === null || next.hold !== null || next.stage.id !== id)
    note('order', `Fact ${seq}: stage ${id} was not next.`);
  if (account.checkedIn !== true) note('order', `Fact ${seq}: work was done before the check-in.`);
  if (procedure?.tools.some((tool) => !account.out.has(tool.id)) !== false) {
    note('order', `Fact ${seq}: work was done before all tools were counted out.`);
  }
  const stage = procedure?.stages.find((one) => one.id === id) ?? null;
  if (stage === null) note('order', `Fact ${seq}: the procedure has no stage ${id}.`);
  else checkClosing(account, stage, { seq, note });
  return stage;
}

/** Work, and the stage that it says it belongs to. */
interface InStage<K extends Fact['body']['kind']> {
  readonly stage: Stage;
  readonly body: BodyOf<K>;
}

function checkStows(account: Account, { stage, body }: InStage<'stowed'>, { seq, note }: At): void {
  if (stage.kind !== 'stow') return note('stow', `Fact ${seq} stows in stage ${stage.id}, which has no stows.`);
  const { stows, firstSide, alternate } = stage.plan;
  const total = account.done(stage.id).stows + body.count;
  const other = firstSide === 'left' ? 'right' : 'left';
  const side = alternate && total % 2 === 0 ? other : firstSide;
  if (!(Number.isInteger(body.count) && body.count >= 1)) note('stow', `Fact ${seq} stows ${body.count}.`);
  if (body.total !== total) note('stow', `Fact ${seq} says ${body.total} stows where ${total} were done.`);
  if (total > stows) note('stow', `Fact ${seq}: ${total} stows are more than the ${stows} planned.`);
  if (body.lastSide !== side) note('stow', `Fact ${seq}: stow ${total} belongs on the ${side}.`);
}

function checkMeasure(account: Account, { stage, body }: InStage<'measured'>, { seq, note }: At): void {
  if (stage.kind !== 'measure')
    return note('measure', `Fact ${seq} measures in stage ${stage.id}, which has no measure.`);
  const bands = bandsOf(account, stage);
  if (bands === null) return note('measure', `Fact ${seq}: what stage ${stage.id} should measure is not on record.`);
  const value = micrometres(body.value);
  const expected = micrometres(body.expected);
  if (!bands.some((band) => isNear(expected, band.expected))) {
    note('measure', `Fact ${seq} expects another length than the plan gives.`);
  }
  const deviation = micrometres({ value: body.deviation, unit: body.expected.unit });
  if (!isNear(deviation, value - expected))
    note('measure', `Fact ${seq} states a deviation that is not the difference.`);
  if (!bands.some(({ lowest, highest }) => body.within === isWithin(value, lowest, highest))) {
    note('measure', `Fact ${seq}: whether the length lies within its tolerance is stated wrongly.`);
  }
}

/** What the stage should measure. Of a plan older than \`perStow\` also as it was judged then: in a wider band. */
function bandsOf(account: Account, stage: Extract<Stage, { kind: 'measure' }>): readonly Band[] | null {
  const { target } = stage;
  if (target.from === 'nominal') {
    const nominal = micrometres(target.nominal);
    return [
      { expected: nominal, lowest: nominal - micrometres(target.under), highest: nominal + micrometres(target.over) },
    ];
  }
  const stow = account.procedure?.stages.find(({ id }) => id === target.stowStage);
  if (stow?.kind !== 'stow') return null;
  const [line, made] = [account.lineAtStart(stow), account.done(stow.id).stows];
  const band = remainderBand(stow.plan, line, made);
  return stow.plan.perStow === undefined ? [band, computedBand(stow.plan, line, made)] : [band];
}

function checkItem(account: Account, { seq, body }: FactOf<'itemPlaced' | 'itemRemoved'>, note: Note): void {
  const put = body.kind === 'itemPlaced';
  if (account.procedure?.temporaryItems.some(({ id }) => id === body.item) !== true) {
    note('item', `Fact ${seq}: the procedure has no item ${body.item}.`);
  }
  if (account.inside.has(body.item) === put)
    note('item', `Fact ${seq}: ${body.item} was ${put ? 'in' : 'out'} already.`);
  if (body.stage === null) return;
  const stage = stageAtTurn(account, body.stage, { seq, note });
  const fits = (stage?.kind === 'place' && put) || (stage?.kind === 'remove' && !put);
  if (!fits || !('item' in stage) || stage.item !== body.item) {
    note('item', `Fact ${seq} moves an item that stage ${body.stage} does not.`);
  }
}
