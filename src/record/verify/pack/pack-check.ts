/**
 * Goes through the facts of one pack in their order and asks of each whether it could happen there and then: by whom,
 * when, at which step, with which values. Knows nothing of the pack machine; it is told the rules a second time here.
 */
import type { Fact } from '../../../domain/fact';
import type { Note } from '../finding';
import type { Journal } from '../journal/journal';
import { Account } from './account';
import { checkAct } from './act-check';
import { BARRIERS, CORRECTABLE } from './acts';
import { checkActor } from './packer-check';

export class PackCheck {
  private account = new Account();
  private facts: Fact[] = [];
  private readonly takenBack = new Set<number>();
  private lastMs = Number.NEGATIVE_INFINITY;
  private jumped = false;
  /** When somebody last did something; refused scans aside. */
  private lastActMs = Number.NEGATIVE_INFINITY;

  /** `journal` knows what happened in the other packs. */
  constructor(private readonly journal: Journal) {}

  /** The next fact of this pack; what is wrong with it goes to `note`. Throws on a body that is not of its kind's form. */
  take(fact: Fact, note: Note): void {
    const { body } = fact;
    const { account, journal, facts, lastActMs } = this;
    this.checkTime(fact, note);
    const days = this.edition(fact) < 2 ? [fact.at.slice(0, 10)] : journal.daysAt(fact.at);
    checkActor(account, fact, note);
    if (account.ended !== null) {
      note('ended', `Fact ${fact.seq} was added after the pack had been ${account.ended}.`);
    } else {
      checkAct({ account, journal, facts, days, lastActMs }, fact, note);
    }
    this.facts.push(fact);
    if (body.kind === 'inspectorPresent' || body.kind === 'handedOver' || body.kind === 'signed') {
      journal.spent.add(body.sighting);
    }
    if (body.kind === 'resumed' && body.sighting !== undefined) journal.spent.add(body.sighting);
    if (body.kind === 'handedOver' && body.fromSighting !== undefined) journal.spent.add(body.fromSighting);
    if (fact.by !== null && body.kind !== 'scanRefused') this.lastActMs = Math.max(lastActMs, Date.parse(fact.at));
    if (body.kind === 'corrected') this.takeBack(body.fact, note);
    else account.enter(fact);
    if (this.account.ended !== null) this.letGo(this.account.ended);
  }

  /** Nothing may follow the end of a pack, so nothing more has to be known of it. */
  private letGo(ended: NonNullable<Account['ended']>): void {
    this.facts = [];
    this.account = new Account();
    this.account.ended = ended;
  }

  /** Which rules hold: those of the pack's opening. */
  private edition({ body }: Fact): number {
    return body.kind === 'packOpened' ? (body.edition ?? 1) : this.account.edition;
  }

  private checkTime(fact: Fact, note: Note): void {
    const { seq, at, body } = fact;
    const inOrder = this.journal.enter(fact);
    if (!inOrder && this.edition(fact) >= 2 && Date.parse(at) >= this.lastMs) {
      note(
        'time',
        `Fact ${seq} is dated before one of another pack ahead of it, and no jump of the clock is on record.`,
      );
    }
    const ms = Date.parse(at);
    if (body.kind === 'clockJumped') this.jumped = true;
    else {
      if (!(ms >= this.lastMs) && !this.jumped) {
        note('time', `Fact ${seq} is dated before the one ahead of it, and no jump of the clock is on record.`);
      }
      this.jumped = false;
    }
    if (Number.isFinite(ms)) this.lastMs = ms;
    else note('time', `Fact ${seq} has no date and time.`);
  }

  private takeBack(target: number, note: Note): void {
    const sound = this.correctable()?.seq === target;
    if (!sound) return note('correction', `Fact ${target} could not be taken back there.`);
    this.takenBack.add(target);
    this.account = new Account();
    for (const fact of this.facts)
      if (!this.takenBack.has(fact.seq) && fact.body.kind !== 'corrected') this.account.enter(fact);
    this.account.present = null;
  }

  /** The last fact that a correction can mean. */
  private correctable(): Fact | null {
    for (let at = this.facts.length - 1; at >= 0; at -= 1) {
      const fact = this.facts[at];
      if (fact === undefined || BARRIERS.includes(fact.body.kind)) return null;
      const may = fact.body.kind !== 'measured' || fact.body.within;
      if (CORRECTABLE.includes(fact.body.kind) && may && !this.takenBack.has(fact.seq)) return fact;
    }
    return null;
  }
}
