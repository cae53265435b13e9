/** Working through the demo procedure as a rigger and an inspector would, stage by stage, by voice and badge. */
import type { Procedure, Stage } from '../../../src/domain/procedure';
import { linePerStow } from '../../../src/domain/stow-plan';
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

/** Counts one line of tools, out or back. */
export function countTools(rigger: Rigger, count: number): Promise<void> {
  return rigger.value(count === 1 ? 'one tool' : `${sayNumber(count)} tools`, `: ${count} tool`);
}

/** Counts all tools again, and looks at the temporary items. */
export async function account(rigger: Rigger, { tools, temporaryItems }: Procedure): Promise<void> {
  for (const tool of tools) {
    await rigger.expectScreen('closeUp');
    await countTools(rigger, tool.count);
  }
  if (temporaryItems.length === 0) return;
  await rigger.expectScreen('items');
  await rigger.say('all items seen');
  await rigger.say('affirm');
}

/** An inspector comes, scans, and releases by voice. */
export async function releaseHold(rigger: Rigger, inspector: Person): Promise<void> {
  await rigger.expectScreen('hold');
  await rigger.show(badgeOf(inspector), 'qr');
  await rigger.say('release hold');
  await rigger.say('affirm');
}
