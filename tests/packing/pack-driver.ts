/**
 * Drives the pack machine without an actor: events go in, `append` is answered at once by a journal in memory (or
 * refused, or left hanging), and time is a number that the test moves.
 */
import { initialTransition } from 'xstate';
import type { Channel, Command } from '../../src/domain/command';
import type { Fact, FactDraft } from '../../src/domain/fact';
import type { Instant } from '../../src/domain/instant';
import type { Loft } from '../../src/domain/loft';
import type { Sighting, SightingMeaning } from '../../src/domain/sighting';
import type { PackEvent, PackInput } from '../../src/packing/machine/event';
import type { Phase } from '../../src/packing/machine/context';
import type { PackSnapshot } from '../../src/packing/machine/machine';
import { packMachine, phaseOf } from '../../src/packing/machine/machine';
import type { Task } from '../../src/packing/state/task';
import { nextTask } from '../../src/packing/state/next-task';
import type { PackView } from '../../src/packing/machine/view';
import { viewOf } from '../../src/packing/machine/view-of';
import { textDigest } from '../../src/record/chain/text-digest';
import type { EmittedAction, TakeStep } from './inert-scope';
import { inertSteps } from './inert-scope';

export interface DriverInput {
  readonly loft: Loft;
  readonly packer?: string;
  readonly pack?: string;
  readonly openElsewhere?: readonly string[];
  /** Facts of other packs that came before; this pack's are numbered on from the last of them. */
  readonly elsewhere?: readonly Fact[];
  /** When the pack begins; default is the time of the last of `facts`, or nine o'clock on the day of the fixture. */
  readonly at?: Instant;
  /** How storage answers from the first write on. */
  readonly storage?: Storage;
  /** Facts to come back to, as after a restart. */
  readonly facts?: readonly Fact[];
}

export type Storage = 'works' | 'hangs' | { readonly fails: string };

/** One emission of `append`. */
export type Append = readonly FactDraft[];

/** A whole pack takes some sixty events, and with every refusal tried at each step a thousand: more goes round in circles. */
const MOST_EVENTS = 5_000;

export class PackDriver {
  readonly appends: Append[] = [];
  storage: Storage;
  ms: number;
  private journal: Fact[];
  private seq: number;
  private current: PackSnapshot;
  private waiting: Append | null = null;
  private sightings = 0;
  private events = 0;
  private lastScan: Sighting | null = null;
  private readonly steps: TakeStep;
  private loft: Loft;

  constructor(private readonly input: DriverInput) {
    this.loft = input.loft;
    this.storage = input.storage ?? 'works';
    this.ms = Date.parse(input.at ?? input.facts?.at(-1)?.at ?? '2026-11-25T09:00:00.000Z');
    this.journal = [...(input.facts ?? [])];
    this.steps = inertSteps(this.machineInput());
    this.seq = Math.max(-1, ...[...this.journal, ...(input.elsewhere ?? [])].map(({ seq }) => seq)) + 1;
    this.current = this.start();
    this.answer();
  }

  get snapshot(): PackSnapshot {
    return this.current;
  }
  get view(): PackView {
    return viewOf(this.current);
  }
  get phase(): Phase {
    return phaseOf(this.current);
  }
  get task(): Task {
    return nextTask(this.loft, this.current.context.state);
  }
  get facts(): readonly Fact[] {
    return this.journal;
  }
  get now(): Instant {
    return new Date(this.ms).toISOString();
  }

  /** Another driver at the same moment: what happens there changes nothing here. */
  fork(): PackDriver {
    return Object.assign(Object.create(PackDriver.prototype) as PackDriver, this);
  }

  /** Moves the clock; nothing else happens. */
  after(seconds: number): void {
    this.ms += seconds * 1000;
  }

  send(event: PackEvent): void {
    this.events += 1;
    if (this.events > MOST_EVENTS) throw new Error(`still at ${this.phase} after ${String(MOST_EVENTS)} events`);
    const [snapshot, actions] = this.steps(this.current, event);
    this.current = snapshot;
    this.collect(actions);
    this.answer();
  }

  command(command: Command, channel: Channel = 'voice'): void {
    this.after(1);
    this.send({ type: 'COMMAND', command, channel, at: this.now });
  }

  /** The loft's files were changed, and have been read anew. */
  files(loft: Loft): void {
    this.loft = loft;
    this.send({ type: 'FILES', loft, at: this.now });
  }

  tick(): void {
    this.send({ type: 'TICK', at: this.now });
  }

  /** A scan; `ageSeconds` is how long ago it was made when it arrives. */
  scan(meaning: SightingMeaning, payload: string, ageSeconds = 0): void {
    this.after(1);
    this.sightings += 1;
    const at = new Date(this.ms - ageSeconds * 1000).toISOString();
    this.lastScan = {
      id: `s${String(this.sightings)}`,
      at,
      reader: 'camera',
      payloadDigest: textDigest(payload),
      meaning,
    };
    this.rescan();
  }

  /** Delivers the last scan once more: the same act of scanning, replayed. */
  rescan(): void {
    if (this.lastScan === null) throw new Error('nothing has been scanned');
    this.send({ type: 'SIGHTED', sighting: this.lastScan, at: this.now });
  }

  component(serial: string, uii?: string): void {
    if (uii === undefined) this.scan({ kind: 'component', serial }, serial);
    else this.scan({ kind: 'component', serial, uii }, uii);
  }

  badge(badge: string, ageSeconds = 0): void {
    this.scan({ kind: 'badge', badgeDigest: textDigest(badge) }, badge, ageSeconds);
  }

  /** Power cut and reload: what was not stored is gone, and the machine starts from the journal. */
  restart(): void {
    this.waiting = null;
    this.after(1);
    this.current = this.start();
    this.answer();
  }

  /** Lets a hanging write come through, or fail. */
  settle(how: Exclude<Storage, 'hangs'>): void {
    this.storage = how;
    this.answer();
  }

  private machineInput(): PackInput {
    const { loft } = this;
    const { packer = 'ada', pack = 'pack-1', openElsewhere = [], elsewhere } = this.input;
    const opening = this.journal.length > 0 ? null : { packer, badgeDigest: textDigest(`B-${packer}`) };
    const common = { loft, pack, facts: this.journal, opening, openElsewhere, at: this.now };
    return elsewhere === undefined ? common : { ...common, elsewhere };
  }

  private start(): PackSnapshot {
    const [snapshot, actions] = initialTransition(packMachine, this.machineInput());
    this.collect(actions);
    return snapshot;
  }

  private collect(actions: readonly EmittedAction[]): void {
    for (const { type, params } of actions) {
      if (type !== 'append') continue;
      this.waiting = (params as { readonly drafts: Append }).drafts;
      this.appends.push(this.waiting);
    }
  }

  private answer(): void {
    const drafts = this.waiting;
    if (drafts === null || this.storage === 'hangs') return;
    this.waiting = null;
    if (this.storage !== 'works') {
      this.send({ type: 'STORE_FAILED', detail: this.storage.fails });
      return;
    }
    // Another pack of the same kiosk may have written in between: numbers rise, with gaps.
    const facts = drafts.map((draft, index) => ({ ...draft, seq: this.seq + index }));
    this.seq += drafts.length;
    this.journal = [...this.journal, ...facts];
    this.send({ type: 'STORED', facts });
  }
}
