/** What happens at the demonstration's table: a pack that is stopped at check-in, and one with every kind of interruption. */
import { COMPONENT_KINDS } from '../../domain/component/component';
import type { Loft } from '../../domain/loft';
import { bandOf } from '../../packing/steps/stage/kinds/measure';
import type { Task } from '../../packing/state/task';
import { taskKey } from '../../packing/state/task';
import type { Table } from './table';

interface Pack {
  readonly loft: Loft;
  readonly assembly: string;
  readonly inspector: string;
}

/** One step of a sound pack; false when it has ended. */
async function step(table: Table, pack: Pack): Promise<boolean> {
  if (table.legal('resume')) return done(table.command({ name: 'resume' }));
  if (table.legal('affirm')) return done(table.command({ name: 'affirm' }));
  if (table.legal('nothingFound')) return done(table.command({ name: 'nothingFound' }, 90));
  if (table.legal('finding')) return done(table.command({ name: 'finding', number: 1 }));
  if (table.legal('releaseHold')) return done(table.command({ name: 'releaseHold' }));
  const task = await table.task();
  if (task.kind === 'identify') return done(identify(table, pack));
  if (task.kind === 'toolOut' || task.kind === 'toolCheck' || task.kind === 'toolBack') {
    return done(table.command({ name: 'count', count: task.tool.count, noun: 'tools' }));
  }
  if (task.kind === 'restore') {
    return done(table.command({ name: task.direction === 'in' ? 'itemPlaced' : 'itemRemoved' }));
  }
  if (task.kind === 'hold') return done(table.badge(pack.inspector));
  if (task.kind === 'items') return done(table.command({ name: 'itemsSeen' }, 20));
  if (task.kind === 'card') return done(table.command({ name: 'cardPlaced' }, 30));
  if (task.kind === 'sign') return done(table.badge((await table.state()).packer ?? ''));
  return task.kind === 'stage' ? done(work(table, task)) : false;
}

async function done(act: Promise<void>): Promise<boolean> {
  await act;
  return true;
}

async function identify(table: Table, { loft, assembly }: Pack): Promise<void> {
  const { identified } = await table.state();
  const kind = COMPONENT_KINDS.find((one) => !identified.has(one));
  const part = loft.assemblies.find(({ id }) => id === assembly)?.components.find((one) => one.kind === kind);
  await table.component(part?.serial ?? '');
}

async function work(table: Table, { stage, procedure }: Extract<Task, { kind: 'stage' }>): Promise<void> {
  if (stage.kind === 'confirm') return table.command({ name: 'stageComplete' }, 40);
  if (stage.kind === 'count') return table.command({ name: 'count', count: stage.expected, noun: stage.noun }, 30);
  if (stage.kind === 'place') return table.command({ name: 'itemPlaced' }, 20);
  if (stage.kind === 'remove') return table.command({ name: 'itemRemoved' }, 20);
  const state = await table.state();
  if (stage.kind === 'measure') {
    const { value } = bandOf(procedure, state, stage).expected;
    return table.command({ name: 'measured', value, unit: null }, 15);
  }
  const stows = state.stages.get(stage.id)?.stows ?? 0;
  return table.command({ name: stows < stage.plan.stows ? 'stow' : 'stageComplete' }, 12);
}

/** Goes on soundly until this task is next and nothing is being read back; until the end for ''. */
async function reach(table: Table, pack: Pack, key: string): Promise<void> {
  for (let steps = 0; steps < 2_000; steps += 1) {
    const here = key !== '' && taskKey(await table.task()) === key;
    if (here && !table.legal('affirm') && !table.legal('releaseHold')) return;
    if (!(await step(table, pack))) {
      if (key === '') return;
      break;
    }
  }
  throw new Error(`${key} is not reached`);
}

/** A container beyond its life: checked in, refused, stopped and tagged. */
async function beyondLife(table: Table, loft: Loft): Promise<void> {
  await table.begin('pack-0001', 'hazel-orrin');
  await reach(table, { loft, assembly: 'wendle-main-6', inspector: '' }, 'blocked');
  await table.command({ name: 'stopAndTag' });
  await table.command({ name: 'affirm' });
  await table.command({ name: 'finding', number: 2 });
  await table.command({ name: 'affirm' });
  table.leave();
}

/** The cargo pack: own badge, correction, wrong length, return, lapse, restart, stand by and hand over. */
async function cargo(table: Table, loft: Loft): Promise<void> {
  const pack = { loft, assembly: 'corrow-cargo-9', inspector: 'tomas-veller' };
  await table.begin('pack-0002', 'hazel-orrin');
  await reach(table, pack, 'stage:lines');
  await table.command({ name: 'correction' });
  await table.command({ name: 'affirm' });
  await reach(table, pack, 'hold:gores-lines');
  await table.badge('hazel-orrin');
  await table.badge('tomas-veller');
  table.wait(120);
  await table.tick();
  await table.badge('tomas-veller');
  await table.command({ name: 'returnHold' });
  await table.command({ name: 'finding', number: 1 });
  await table.command({ name: 'affirm' });
  await table.command({ name: 'affirm' });
  await reach(table, pack, 'hold:gores-lines');
  await reach(table, pack, '');
  table.leave();
}

/** The cargo pack with a break before the stage that is measured first. */
export async function tellStory(table: Table, loft: Loft): Promise<void> {
  table.wait(60);
  await beyondLife(table, loft);
  table.wait(600);
  await cargo(table, loft);
  table.wait(3600);
  await broken(table, loft);
}

/** The main canopy, begun by one rigger, left over night by a power cut, and finished by another. */
async function broken(table: Table, loft: Loft): Promise<void> {
  const pack = { loft, assembly: 'wendle-main-4', inspector: 'tomas-veller' };
  const first = loft.procedures.find(({ id }) => id === 'wendle-r7-static-line')?.stages.find(isMeasured);
  await table.begin('pack-0003', 'hazel-orrin');
  await reach(table, pack, `stage:${first?.id ?? ''}`);
  await table.command({ name: 'measured', value: 1, unit: null });
  await table.command({ name: 'affirm' });
  table.wait(15 * 3600);
  await table.restart();
  await table.badge('ines-calloway');
  await table.command({ name: 'finding', number: 2 });
  await table.badge('rurik-dane');
  await table.command({ name: 'affirm' });
  await table.command({ name: 'resume' });
  await reach(table, pack, `toolCheck:${toolOf(loft)}`);
  await table.command({ name: 'standBy' });
  table.wait(30 * 60);
  await table.badge('ines-calloway');
  await reopen(table, pack);
  // The clock had been fast by three minutes.
  table.setClock(-180);
  await reach(table, pack, '');
  table.leave();
}

function toolOf(loft: Loft): string {
  return loft.procedures.find(({ id }) => id === 'wendle-r7-static-line')?.tools[0]?.id ?? '';
}

/** Before the container is closed the packer goes back to the last stage that was inspected. */
async function reopen(table: Table, pack: Pack): Promise<void> {
  const procedure = pack.loft.procedures.find(({ models }) => models.includes('Wendle R7'));
  const stages = procedure?.stages ?? [];
  const closing = stages.findIndex(({ closes }) => closes === true);
  const stage = stages.slice(0, closing).findLast(({ hold }) => hold !== null);
  await reach(table, pack, `toolCheck:${procedure?.tools[0]?.id ?? ''}`);
  await table.command({ name: 'reopenStage', stage: stage?.number ?? 0 });
  await table.command({ name: 'affirm' });
}

function isMeasured({ kind }: { readonly kind: string }): boolean {
  return kind === 'measure';
}
