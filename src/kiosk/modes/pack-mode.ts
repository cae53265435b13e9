/** A pack in progress. It can be left only when it has ended. */
import type { Channel, Command } from '../../domain/command';
import type { Fact } from '../../domain/fact';
import type { Loft } from '../../domain/loft';
import type { Sighting } from '../../domain/sighting';
import type { ProofState } from '../../screens/contract/proof-view';
import { enterPack, type Entered, type PackOpening } from '../pack/enter-pack';
import type { Mode } from './mode';
import { openingOf, type Scene } from './scene';
import type { Table } from './table';

/** Takes up the pack with this id, or begins it where there is an opening; null where it could not be. */
export async function openPack(table: Table, pack: string, opening: PackOpening | null): Promise<PackMode | null> {
  const { parts, book, files, journal } = table;
  const { head, known } = journal;
  if (table.isEntering) return null;
  const refuse = (why: string): null => {
    table.toStart(why);
    return null;
  };
  if (head === null) return refuse('No pack can be opened: the storage does not work.');
  table.isEntering = true;
  let mode: PackMode | null = null;
  const told = {
    onChange: () => table.refresh(),
    onSigned: (signed: Fact) => void mode?.prove(signed),
    onClosed: () => void table.records()?.closed(),
  };
  const entered = await enterPack({ parts, book, known, loft: files.loft(), head, ...told }, pack, opening);
  table.isEntering = false;
  if (!entered.ok) return refuse(entered.detail);
  mode = new PackMode(table, entered.value);
  table.enter(mode);
  // A card that was signed before a break still has to be printed.
  const signed = entered.value.facts.findLast(({ body }) => body.kind === 'signed');
  if (signed !== undefined) void mode.prove(signed);
  return mode;
}

export class PackMode implements Mode {
  readonly screen = 'pack';
  /** Of the record that was signed last; null where none was. */
  private proof: ProofState | null = null;

  constructor(
    private readonly table: Table,
    private readonly entered: Entered,
  ) {}

  scene(): Scene {
    const { runner, pin } = this.entered;
    const view = runner.view();
    const filesTrouble = this.table.files.trouble();
    return {
      view: { screen: 'pack', view, proof: this.proof, filesTrouble },
      prompt: view.prompt,
      opening: view.storing ? null : openingOf(view.legal),
      pin,
      voices: runner.voices(),
    };
  }

  command(command: Command, channel: Channel): void {
    this.entered.runner.send({ type: 'COMMAND', command, channel, at: this.table.parts.now() });
  }

  /** A badge that needs its PIN waits for it; what else is scanned meanwhile was not meant. */
  sighted(sighting: Sighting): void {
    const { runner, pin } = this.entered;
    const event = { type: 'SIGHTED', sighting, at: this.table.parts.now() } as const;
    const person = runner.pinAskedOf(event);
    if (person !== null) pin.ask(person, sighting);
    else if (pin.view() === null) runner.send(event);
  }

  leave(): void {
    const { table, entered } = this;
    const { runner } = entered;
    if (!runner.view().ended) return;
    table.journal.head = runner.head();
    table.journal.known = runner.known();
    runner.end();
    table.toStart(null);
  }

  files(loft: Loft): void {
    this.entered.runner.files(this.table.book.over(loft));
  }

  /** Until the first fact is stored or refused. */
  begun(): Promise<void> {
    return this.entered.runner.begun();
  }

  /** Makes the code for the papers of this record; until then nothing is printed. */
  async prove(signed: Fact): Promise<void> {
    const records = this.table.records();
    if (records === null) return;
    this.proof = { state: 'making' };
    this.table.refresh();
    this.proof = await records.sealed(signed);
    this.table.refresh();
  }
}
