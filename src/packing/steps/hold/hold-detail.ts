/** What the screen of a hold draws, whatever is being chosen at it. */
import { assert } from '../../../domain/assert';
import { holdsOf } from '../../../domain/procedure';
import type { Here, Phase } from '../../machine/context';
import type { Detail } from '../../machine/view';
import { personName } from '../../state/place';
import { findingsOf } from './findings';

type HoldPhase = Extract<Detail, { screen: 'hold' }>['phase'];
const HOLD_PHASES: Partial<Record<Phase, HoldPhase>> = {
  inspecting: 'inspecting',
  choosingFinding: 'choosingFinding',
  choosingPoint: 'choosingPoint',
  choosingStage: 'choosingStage',
};

/** The hold with its points, its findings, and whoever is there to judge. */
export function holdDetail({ context, phase, task }: Here): Detail {
  assert(task.kind === 'hold', 'a verdict is given at a hold');
  const holds = holdsOf(task.procedure);
  const { presence } = context;
  return {
    screen: 'hold',
    final: task.final,
    number: task.final ? holds.length + 1 : holds.findIndex((one) => one.hold.id === task.hold.id) + 1,
    of: task.final ? holds.length + 1 : holds.length,
    title: task.hold.title,
    inspect: task.hold.inspect,
    phase: HOLD_PHASES[phase] ?? 'waiting',
    inspectorClass: task.hold.inspectorClass,
    inspector: presence === null ? null : personName(context, presence.inspector),
    deadline: presence?.deadline ?? null,
    findings: findingsOf(task.hold, task.stage).map(({ text }, index) => ({ number: index + 1, text })),
    called: context.state.called.has(task.stage.id),
  };
}
