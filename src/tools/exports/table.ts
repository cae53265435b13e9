/** A packing table without a browser: the real store, seals, runner and machine, with a clock that the caller moves. */
import 'fake-indexeddb/auto';
import type { Command } from '../../domain/command';
import type { Fact } from '../../domain/fact';
import type { Loft } from '../../domain/loft';
import type { SightingMeaning } from '../../domain/sighting';
import type { Result } from '../../domain/result';
import { createArchive, type Archive } from '../../kiosk/record/archive';
import { withDigests } from '../../kiosk/record/in-force';
import { startPack, type PackRunner } from '../../kiosk/pack/pack-runner';
import { foldFacts } from '../../packing/state/fold';
import { type PackState } from '../../packing/state/pack-state';
import { nextTask } from '../../packing/state/next-task';
import { type Task } from '../../packing/state/task';
import { textDigest } from '../../record/chain/text-digest';
import { openCheckpointDb } from '../../record/seal/checkpoint-db';
import { createCheckpointSigner } from '../../record/seal/checkpoint-signer';
import { createStore, type Store } from '../../record/store/store';
import { keyPairFrom } from './demo-key';

export interface TableOptions {
  readonly loft: Loft;
  readonly name: string;
  readonly keyName: string;
  readonly keyWord: string;
  /** When it begins, in milliseconds since the epoch. */
  readonly from: number;
}

/** Takes the value out, or throws with the refusal's own words. */
export function must<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(`${result.reason}: ${result.detail}`);
  return result.value;
}

export class Table {
  /** The wall clock, and one that is never set. */
  private ms: number;
  private steady = 0;
  private runner: PackRunner | null = null;
  private pack = '';
  private ids = 0;
  private signedCards: string[] = [];
  private sealing: Promise<void> = Promise.resolve();

  private constructor(
    private readonly options: TableOptions,
    readonly store: Store,
    readonly archive: Archive,
  ) {
    this.ms = options.from;
  }

  static async open(given: TableOptions): Promise<Table> {
    const options = { ...given, loft: withDigests(given.loft) };
    const { name, keyName, keyWord } = options;
    const db = await openCheckpointDb(`${name}-seals`);
    await db.put('key', { id: 'key', name: keyName, pair: await keyPairFrom(keyWord) });
    db.close();
    const store = createStore({ name });
    must(await store.open());
    return new Table(options, store, createArchive(store, createCheckpointSigner({ name: `${name}-seals`, keyName })));
  }

  /** Texts of the codes of the cards that were printed. */
  get cards(): readonly string[] {
    return this.signedCards;
  }

  get now(): string {
    return new Date(this.ms).toISOString();
  }

  /** Lets time go by. */
  wait(seconds: number): void {
    this.ms += seconds * 1000;
    this.steady += seconds * 1000;
  }

  /** Somebody sets the wall clock. */
  setClock(seconds: number): void {
    this.ms += seconds * 1000;
  }

  /** Opens a new pack. */
  async begin(pack: string, packer: string): Promise<void> {
    await this.start(pack, [], { packer, badgeDigest: this.badgeOf(packer) });
  }

  /** The kiosk is started again on the pack that it left. */
  async restart(): Promise<void> {
    this.runner?.end();
    await this.start(this.pack, must(await this.store.read(this.pack)), null);
  }

  private async start(pack: string, facts: readonly Fact[], opening: { packer: string; badgeDigest: string } | null) {
    const head = must(await this.store.head());
    const { loft } = this.options;
    this.pack = pack;
    this.runner = startPack({
      ledger: this.store,
      head,
      input: { loft, pack, facts, opening, openElsewhere: [], at: this.now },
      now: () => this.now,
      nowMs: () => this.steady,
      onChange: () => undefined,
      onSigned: (signed) => {
        this.sealing = this.seal(signed);
      },
    });
    await this.settle();
  }

  private async seal(signed: Fact): Promise<void> {
    this.signedCards.push(must(await this.archive.sealRecord(signed)));
  }

  /** Ends the present pack's machine. */
  leave(): void {
    this.runner?.end();
    this.runner = null;
  }

  async command(command: Command, seconds = 4): Promise<void> {
    this.wait(seconds);
    this.running().send({ type: 'COMMAND', command, channel: 'voice', at: this.now });
    await this.settle();
  }

  async scan(meaning: SightingMeaning, payload: string): Promise<void> {
    this.wait(3);
    const id = `scan-${(this.ids += 1)}`;
    this.running().send({
      type: 'SIGHTED',
      sighting: { id, at: this.now, reader: 'camera', payloadDigest: textDigest(payload), meaning },
      at: this.now,
    });
    await this.settle();
  }

  component(serial: string): Promise<void> {
    return this.scan({ kind: 'component', serial }, serial);
  }

  badge(person: string): Promise<void> {
    const badge = this.badgeOf(person);
    return this.scan({ kind: 'badge', badgeDigest: badge }, badge);
  }

  /** The digest of a person's first badge, which is all that the loft knows of it. */
  private badgeOf(person: string): string {
    return this.options.loft.people.find(({ id }) => id === person)?.badges[0] ?? '';
  }

  async tick(): Promise<void> {
    this.running().send({ type: 'TICK', at: this.now });
    await this.settle();
  }

  legal(name: Command['name']): boolean {
    return this.running()
      .view()
      .legal.some((one) => one.name === name);
  }

  async state(): Promise<PackState> {
    return foldFacts(this.options.loft, must(await this.store.read(this.pack)));
  }

  async task(): Promise<Task> {
    return nextTask(this.options.loft, await this.state());
  }

  private running(): PackRunner {
    if (this.runner === null) throw new Error('no pack is under way');
    return this.runner;
  }

  /** Until storage has answered; fails where it takes for ever. */
  private async settle(): Promise<void> {
    for (let turn = 0; turn < 10_000; turn += 1) {
      await new Promise((done) => setImmediate(done));
      if (!this.running().view().storing && turn > 3) return this.sealing;
    }
    throw new Error('the storage does not answer');
  }
}
