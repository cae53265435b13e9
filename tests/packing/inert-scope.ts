/**
 * Where a machine takes its steps without an actor. The `transition` of xstate makes a new actor for each event, and
 * begins the machine without its input for that, which costs more than the step itself.
 */
import type { AnyActorScope } from 'xstate';
import { createActor } from 'xstate';
import type { PackEvent, PackInput } from '../../src/packing/machine/event';
import type { PackSnapshot } from '../../src/packing/machine/machine';
import { packMachine } from '../../src/packing/machine/machine';

export interface EmittedAction {
  readonly type: string;
  readonly params?: unknown;
}

/** What an event leads to, and what the machine wants done. */
export type TakeStep = (
  snapshot: PackSnapshot,
  event: PackEvent,
) => readonly [snapshot: PackSnapshot, actions: readonly EmittedAction[]];

/** Steps of the machine; the input only has to be a sound one. */
export function inertSteps(input: PackInput): TakeStep {
  const actions: EmittedAction[] = [];
  const self = createActor(packMachine, { input });
  const nothing = (): void => undefined;
  const { system } = self;
  const scope: AnyActorScope = {
    self,
    system,
    id: '',
    sessionId: '',
    logger: nothing,
    defer: nothing,
    emit: nothing,
    stopChild: nothing,
    actionExecutor: (action: EmittedAction) => void actions.push(action),
  };
  return (snapshot, event) => [packMachine.transition(snapshot, event, scope), actions.splice(0)];
}
