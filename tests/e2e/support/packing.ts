/** Working through the demo procedure as a rigger and an inspector would, stage by stage, by voice and badge. */
import type { Assembly } from '../../../src/domain/component/component';
import type { Procedure, Stage } from '../../../src/domain/procedure';
import { linePerStow } from '../../../src/domain/stow/stow-plan';
import { sayNumber, sayQuantity } from '../../../src/domain/spoken';
import { inUnit, makeQuantity, scale, subtract, type Quantity } from '../../../src/domain/quantity';
import type { Person } from '../../../src/domain/person';
import { badgeOf } from './demo-badges';
import type { Rigger } from './rigger';

/** The length that a measuring stage should give when every earlier one was nominal. */
export function expectedLength(procedure: Procedure, stage: Stage): Quantity {
  if (stage.kind !== 'measure') throw new Error(`${stage.id} measures nothing`);
  if (stage.target.from === 'nominal') return stage.target.nominal;
  const { stowStage } = stage.target;
  const stow = procedure.stages.find(({ id }) => id === stowStage);
  if (stow?.kind !== 'stow') throw new Error(`${stage.id} measures after no stow stage`);
  const used = scale(linePerStow(stow.plan), stow.plan.stows);
  return inUnit(subtract(stow.plan.line, used), stow.plan.remainder.unit);
}

/** Does all of one stage by voice; the hold after it is not part of it. */
export async function workStage(rigger: Rigger, procedure: Procedure, stage: Stage): Promise<void> {
  switch (stage.kind) {
    case 'confirm':
      return rigger.say('stage complete');
    case 'count':
      return rigger.value(`${sayNumber(stage.expected)} ${stage.noun}`, `${stage.expected} ${stage.noun}`);
    case 'stow':
      await stowSome(rigger, stage.plan.stows);
      return rigger.say('stage complete');
    case 'measure': {
      const length = expectedLength(procedure, stage);
      return rigger.value(`measured ${sayQuantity(length)}`, `: ${makeQuantity(length)}.`);
    }
    case 'place':
      return rigger.say('item placed');
    case 'remove':
      return rigger.say('item removed');
  }
}

/** One stow by itself, the rest as a number. */
export async function stowSome(rigger: Rigger, stows: number): Promise<void> {
  await rigger.say('one more stow');
  if (stows > 1) await stowMore(rigger, stows - 1);
}

/** So many more at once. */
export function stowMore(rigger: Rigger, more: number): Promise<void> {
  return rigger.value(more === 1 ? 'one stow' : `${sayNumber(more)} stows`, `${more} more`);
}

/** Looks over all parts before anything is packed: the first by voice, the others by card. */
export async function lookOver(rigger: Rigger, { components }: Assembly): Promise<void> {
  await rigger.expectScreen('inspection');
  await rigger.say('nothing found');
  await rigger.affirm();
  for (let part = 2; part <= components.length; part += 1) {
    await rigger.expectText(`Part ${part} of ${components.length}`);
    await rigger.scanValue({ name: 'nothingFound' }, 'every point is met');
  }
}

/** Counts all tools, out or again: the first line by voice, the others by card. */
export async function countTools(rigger: Rigger, { tools }: Procedure, screen: 'checkIn' | 'closeUp'): Promise<void> {
  for (const [index, { count }] of tools.entries()) {
    await rigger.expectScreen(screen);
    const shown = `: ${count} tool`;
    if (index === 0) await rigger.value(count === 1 ? 'one tool' : `${sayNumber(count)} tools`, shown);
    else await rigger.scanValue({ name: 'count', count, noun: 'tools' }, shown);
  }
}

/** Counts all tools again, and looks at the temporary items. */
export async function account(rigger: Rigger, procedure: Procedure): Promise<void> {
  await countTools(rigger, procedure, 'closeUp');
  if (procedure.temporaryItems.length === 0) return;
  await rigger.expectScreen('items');
  await rigger.say('all items seen');
  await rigger.affirm();
}

/** An inspector comes, scans, and releases by voice. */
export async function releaseHold(rigger: Rigger, inspector: Person): Promise<void> {
  await rigger.expectScreen('hold');
  await rigger.show(badgeOf(inspector), 'qr');
  await rigger.say('release hold');
  await rigger.affirm();
}
