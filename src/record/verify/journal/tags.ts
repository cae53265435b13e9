/** Recomputes the tags over all packs from the facts: who hung them, who took them off, and who packed under one. */
import type { Fact, FactBody } from '../../../domain/fact';
import type { PersonInForce } from '../../../domain/person';
import type { Note } from '../finding';
import { onEachDay } from '../pack/recheck';
import { againstClearing } from '../pack/qualification';

/** The stream of facts that belong to no pack. */
export const LOFT = 'loft';

interface Part {
  readonly seq: number;
  readonly kind: string;
  readonly serial: string;
}

interface Pack {
  parts: Part[];
  packers: string[];
  /** Kinds on which the inspection before packing found something. */
  found: string[];
  model: string | null;
}

interface Hanging {
  readonly kind: string;
  readonly packers: readonly string[];
  readonly model: string | null;
}

interface Judging {
  readonly note: Note;
  /** What is wrong only where the file holds the whole journal. */
  readonly doubt: Note;
  /** Who takes a tag off is judged on each of these; the day of the fact where there are none. */
  readonly days?: readonly string[];
}

type BodyOf<K extends FactBody['kind']> = Extract<FactBody, { kind: K }>;

export class Tags {
  private readonly packs = new Map<string, Pack>();
  /** By number of the stop and serial. */
  private readonly hanging = new Map<string, Hanging>();
  private people: ReadonlyMap<string, PersonInForce> | null = null;
  private readonly spent = new Set<string>();

  /**
   * The next fact of the journal, of whatever pack; what is wrong about tags goes to `judging.note`.
   */
  take(fact: Fact, judging: Judging): void {
    const { note } = judging;
    const { body, pack: name, seq } = fact;
    const pack = this.packs.get(name) ?? { parts: [], packers: [], found: [], model: null };
    if ('sighting' in body && typeof body.sighting === 'string' && body.kind !== 'tagCleared')
      this.spent.add(body.sighting);
    if (body.kind === 'peopleInForce' && name === LOFT) this.people = new Map(body.people.map((one) => [one.id, one]));
    else if (body.kind === 'packOpened') pack.packers.push(body.packer);
    else if (body.kind === 'handedOver') pack.packers.push(body.to);
    else if (body.kind === 'componentIdentified') pack.parts.push({ seq, kind: body.component, serial: body.serial });
    else if (body.kind === 'inspected') {
      if (body.result !== 'good') pack.found.push(body.component);
    } else if (body.kind === 'corrected') pack.parts = pack.parts.filter((part) => part.seq !== body.fact);
    else if (body.kind === 'procedureInForce') pack.model = body.assembly.model;
    else if (body.kind === 'checkInPassed') this.checkNone(pack, note);
    else if (body.kind === 'stopped') return this.hang(name, pack, { seq, body });
    else if (body.kind === 'packClosed') return void this.packs.delete(name);
    else if (body.kind === 'tagCleared') return this.clear(fact, body, judging);
    else return;
    if (name !== LOFT) this.packs.set(name, pack);
  }

  private checkNone({ parts }: Pack, note: Note): void {
    for (const { kind, serial } of parts) {
      const tagged = [...this.hanging.keys()].some((key) => key.endsWith(`:${serial}`));
      if (tagged) note('tag', `The ${kind} ${serial} was checked in with a tag on it.`);
    }
  }

  private hang(name: string, pack: Pack, { seq, body }: Pick<Fact, 'seq'> & { body: BodyOf<'stopped'> }): void {
    const { component } = body;
    const { parts, packers, found, model } = pack;
    const isNamed = parts.some(({ kind }) => kind === component);
    for (const { kind, serial } of parts) {
      if (isNamed && kind !== component && !found.includes(kind)) continue;
      this.hanging.set(`${String(seq)}:${serial}`, { kind, packers, model });
    }
    this.packs.delete(name);
  }

  private clear({ seq, by, at, pack }: Fact, body: BodyOf<'tagCleared'>, judging: Judging): void {
    const { note, doubt, days = [at.slice(0, 10)] } = judging;
    const key = `${String(body.tag)}:${body.serial}`;
    const tag = this.hanging.get(key);
    if (pack !== LOFT) note('tag', `Fact ${seq} takes off a tag in the middle of a pack.`);
    if (by !== body.inspector) note('who', `Fact ${seq} is not its inspector’s own act.`);
    if (body.finding.trim() === '') note('tag', `Fact ${seq} takes off a tag without saying what was found.`);
    if (this.spent.has(body.sighting)) note('tag', `Fact ${seq} rests on a scan that had been used already.`);
    this.spent.add(body.sighting);
    if (tag === undefined) {
      return doubt('tag', `Fact ${seq} takes off a tag that did not hang there.`);
    }
    if (tag.kind !== body.component) note('tag', `Fact ${seq} calls ${body.serial} a ${body.component}.`);
    const { packers, model } = tag;
    const inspector = this.people?.get(body.inspector);
    for (const against of onEachDay(days, (on) => againstClearing(inspector, { packers, model, on }))) {
      note('who', `Fact ${seq}: ${body.inspector} ${against}, and may not take this tag off.`);
    }
    this.hanging.delete(key);
  }
}

/** Kinds that may stand in the stream of no pack, as far as tags need them. */
const STREAM_KINDS: readonly string[] = ['peopleInForce', 'tagCleared', 'restored', 'scanRefused', 'clockJumped'];

/** Whether the fact belongs into the stream of no pack. */
export function checkStream({ seq, body, by }: Fact, note: Note): void {
  if (!STREAM_KINDS.includes(body.kind)) note('foreign', `Fact ${seq} belongs into a pack.`);
  if (body.kind === 'peopleInForce' && by !== null) note('who', `Fact ${seq} is an act of the kiosk.`);
}
