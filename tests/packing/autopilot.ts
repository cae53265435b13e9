/** Does the one expected thing at each step, so that a test can begin where it is interesting. */
import { COMPONENT_KINDS } from '../../src/domain/component/component';
import { taskKey } from '../../src/packing/state/task';
import { mayEnd } from '../../src/packing/steps/stage/kinds/stow/ledger';
import { bandOf } from '../../src/packing/steps/stage/kinds/measure';
import type { PackDriver } from './pack-driver';

export interface AutopilotChoices {
  readonly assembly: string;
  readonly inspector: string;
}

const USUAL: AutopilotChoices = { assembly: 'P1', inspector: 'ines' };
const MOST_STEPS = 200;

/** One step of a sound pack. False when it has ended or cannot go on. */
export function step(driver: PackDriver, choices: Partial<AutopilotChoices> = {}): boolean {
  const { assembly, inspector } = { ...USUAL, ...choices };
  const { task, phase } = driver;
  const packer = driver.snapshot.context.state.packer ?? '';
  if (phase === 'standingBy') {
    if (driver.view.legal.some(({ name }) => name === 'resume')) driver.command({ name: 'resume' });
    else driver.badge(`B-${packer}`);
  } else if (phase === 'handOverReason') driver.command({ name: 'finding', number: 1 });
  else if (phase === 'handOverLeaving') driver.badge(`B-${packer}`);
  else if (phase === 'handOverLook') driver.command({ name: 'affirm' });
  else if (phase === 'readingBack' || phase === 'choosingStage') driver.command({ name: 'affirm' });
  else if (phase === 'choosingFinding' || phase === 'choosingPoint' || phase === 'choosingCause') {
    driver.command({ name: 'finding', number: 1 });
  } else if (phase === 'choosingComponent') driver.command({ name: 'finding', number: 4 });
  else if (phase === 'inspecting') driver.command({ name: 'releaseHold' });
  else if (task.kind === 'identify') {
    const kind = COMPONENT_KINDS.find((one) => !driver.snapshot.context.state.identified.has(one));
    driver.component(`${assembly}-${(kind ?? 'none').toUpperCase()}`);
  } else if (task.kind === 'inspect') driver.command({ name: 'nothingFound' });
  else if (task.kind === 'toolOut' || task.kind === 'toolCheck' || task.kind === 'toolBack') {
    driver.command({ name: 'count', count: task.tool.count, noun: 'tools' });
  } else if (task.kind === 'restore') {
    driver.command({ name: task.direction === 'in' ? 'itemPlaced' : 'itemRemoved' });
  } else if (task.kind === 'hold') driver.badge(`B-${inspector}`);
  else if (task.kind === 'sign') driver.badge(`B-${driver.snapshot.context.state.packer ?? ''}`);
  else if (task.kind === 'items') driver.command({ name: 'itemsSeen' });
  else if (task.kind === 'card') driver.command({ name: 'cardPlaced' });
  else if (task.kind === 'stage') work(driver);
  else return false;
  return true;
}

function work(driver: PackDriver): void {
  const { task } = driver;
  if (task.kind !== 'stage') return;
  const { stage, procedure } = task;
  const { state } = driver.snapshot.context;
  if (stage.kind === 'confirm') driver.command({ name: 'stageComplete' });
  else if (stage.kind === 'count') driver.command({ name: 'count', count: stage.expected, noun: stage.noun });
  else if (stage.kind === 'place') driver.command({ name: 'itemPlaced' });
  else if (stage.kind === 'remove') driver.command({ name: 'itemRemoved' });
  else if (stage.kind === 'measure') {
    driver.command({ name: 'measured', value: bandOf(procedure, state, stage).expected.value, unit: null });
  } else {
    driver.command({ name: mayEnd(state, stage) ? 'stageComplete' : 'stow' });
  }
}

/** Goes on until `place` is the task (as `taskKey` names it) or the phase, and nothing is being read back. */
export function reach(driver: PackDriver, place: string, choices: Partial<AutopilotChoices> = {}): void {
  for (let steps = 0; steps < MOST_STEPS; steps += 1) {
    if (driver.phase === place || (taskKey(driver.task) === place && driver.phase !== 'readingBack')) return;
    if (!step(driver, choices)) break;
  }
  throw new Error(`${place} is not reached: stands at ${taskKey(driver.task)}, ${driver.phase}`);
}

/** Another rigger takes over from the present one: both badges, a reason, a look back where there is one, and resume. */
export function handOver(driver: PackDriver, to: string): void {
  if (driver.phase !== 'standingBy') driver.command({ name: 'standBy' });
  driver.badge(`B-${to}`);
  while (driver.phase.startsWith('handOver')) step(driver);
  step(driver);
}

/** Sends the next hold back for rework with one of its findings. */
export function sendBack(driver: PackDriver, finding: number): void {
  reach(driver, 'inspecting');
  driver.command({ name: 'returnHold' });
  driver.command({ name: 'finding', number: finding });
}

/** Stops the pack for damage and tags the whole assembly. */
export function stopNow(driver: PackDriver): void {
  driver.command({ name: 'stopAndTag' });
  driver.command({ name: 'finding', number: 1 });
  driver.command({ name: 'finding', number: 4 });
  driver.command({ name: 'affirm' });
}
