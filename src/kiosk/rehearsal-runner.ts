/** Runs a trainee's rehearsal: the procedure read aloud at one's own pace, nothing recorded. */
import { createActor } from 'xstate';
import type { Command } from '../domain/command';
import type { Procedure } from '../domain/procedure';
import { rehearsalMachine, rehearsalViewOf } from '../packing/rehearsal/rehearsal';
import type { RehearsalView } from '../packing/machine/view';

export interface RehearsalRunner {
  send(command: Command): void;
  view(): RehearsalView;
  end(): void;
}

/** Starts at the first stage; `rate` is the loft's speaking rate. */
export function startRehearsal(procedure: Procedure, rate: number, onChange: () => void): RehearsalRunner {
  const actor = createActor(rehearsalMachine, { input: { procedure, rate } });
  actor.subscribe(onChange);
  actor.start();
  return {
    send: (command) => actor.send({ type: 'COMMAND', command }),
    view: () => rehearsalViewOf(actor.getSnapshot()),
    end: () => actor.stop(),
  };
}
