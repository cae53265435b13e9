/** A trainee hears a procedure; there is no journal, so nothing can be recorded. */
import { createActor, type Actor } from 'xstate';
import type { Command } from '../../domain/command';
import type { Procedure } from '../../domain/procedure';
import { rehearsalMachine, rehearsalViewOf } from '../../packing/rehearsal/rehearsal';
import { IGNORED, type Mode } from './mode';
import { openingOf, type Scene } from './scene';
import type { Table } from './table';

/** Begins with the first stage of the procedure with this id; never beside a pack. */
export function rehearse(table: Table, id: string): void {
  if (!table.isFree()) return;
  const procedure = table.files.loft().procedures.find((one) => one.id === id);
  if (procedure !== undefined) table.enter(new RehearsalMode(table, procedure));
}

class RehearsalMode implements Mode {
  readonly screen = 'rehearsal';
  readonly sighted = IGNORED;
  private readonly actor: Actor<typeof rehearsalMachine>;

  constructor(
    private readonly table: Table,
    procedure: Procedure,
  ) {
    const rate = table.files.loft().settings.speakingRate;
    this.actor = createActor(rehearsalMachine, { input: { procedure, rate } });
    this.actor.subscribe(() => table.refresh());
    this.actor.start();
  }

  scene(): Scene {
    const view = rehearsalViewOf(this.actor.getSnapshot());
    const { prompt, legal, rate } = view;
    return { view: { screen: 'rehearsal', view }, prompt, opening: openingOf(legal), rate };
  }

  command(command: Command): void {
    if (command.name === 'finish') this.leave();
    else this.actor.send({ type: 'COMMAND', command });
  }

  leave(): void {
    this.actor.stop();
    this.table.toStart(null);
  }
}
