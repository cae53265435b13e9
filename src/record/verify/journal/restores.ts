/** Who put a journal back from a copy, and whether what was put back is what the journal holds. */
import type { Fact, FactBody } from '../../../domain/fact';
import { onEachDay } from '../pack/recheck';
import type { Note } from '../finding';
import { againstLead } from '../pack/qualification';
import { rootAt, type Levels } from '../bytes/merkle-root';
import { LOFT } from './tags';

type Restored = Extract<FactBody, { kind: 'restored' }>;

/** A place in the journal where it was put back from a copy: no finding by itself. */
export interface Restore {
  readonly seq: number;
  readonly by: string;
  readonly size: number;
  /** What that kiosk had sealed beyond the copy: those facts are lost. */
  readonly behind: { readonly size: number; readonly root: string } | null;
}

interface Taken {
  readonly seq: number;
  readonly days: readonly string[];
  readonly body: Restored;
  readonly note: Note;
}

export class Restores {
  readonly all: Restore[] = [];
  private readonly taken: Taken[] = [];
  /** The last fact, where it restored: the people file in force must stand right behind it. */
  private waiting: Taken | null = null;
  private readonly spent = new Set<string>();

  /** The next fact of the journal, of whatever pack. Who restored is judged on each of `days`. */
  take({ seq, by, pack, body }: Fact, note: Note, days: readonly string[]): void {
    this.judge(pack === LOFT && body.kind === 'peopleInForce' ? body : null);
    if (body.kind === 'restored') {
      const { size, behind } = body;
      if (pack !== LOFT) note('foreign', `Fact ${seq} restores in the middle of a pack.`);
      if (by !== body.by) note('who', `Fact ${seq} is not the own act of who restored.`);
      if (size !== seq)
        note('restore', `Fact ${seq} says that ${size} facts were put back, and ${seq} stand before it.`);
      if (behind !== undefined && behind.size <= size) {
        note('restore', `Fact ${seq} says that it lies behind a seal that it does not lie behind.`);
      }
      if (this.spent.has(body.sighting)) note('restore', `Fact ${seq} rests on a scan that had been used already.`);
      this.waiting = { seq, days, body, note };
      this.taken.push(this.waiting);
      this.all.push({ seq, by: body.by, size, behind: behind ?? null });
    }
    if ('sighting' in body && typeof body.sighting === 'string') this.spent.add(body.sighting);
  }

  /** All facts have been taken; `levels` is empty where the file holds one pack. */
  end(levels: Levels): void {
    this.judge(null);
    if (levels.length === 0) return;
    for (const { seq, body, note } of this.taken) {
      if (body.size !== seq || rootAt(levels, seq) === body.root) continue;
      note('restore', `Fact ${seq} states another root than that of the facts before it.`);
    }
  }

  private judge(people: Extract<FactBody, { kind: 'peopleInForce' }> | null): void {
    const { waiting } = this;
    this.waiting = null;
    if (waiting === null) return;
    const { seq, days, body, note } = waiting;
    if (people === null) return note('who', `Behind fact ${seq} the people file is missing by which it was allowed.`);
    const person = people.people.find(({ id }) => id === body.by);
    for (const against of onEachDay(days, (on) => againstLead(person, on))) {
      note('who', `Fact ${seq}: ${body.by} ${against}, and may not restore.`);
    }
  }
}
