/** A copy that was checked waits here for a fresh badge of a lead, with the PIN where the loft wants one. */
import type { Fact } from '../../domain/fact';
import { epochMs, type Instant } from '../../domain/instant';
import type { Loft } from '../../domain/loft';
import { mayRestore, personOfBadge, type Person } from '../../domain/person';
import { ok, refused, type Result } from '../../domain/result';
import type { Sighting } from '../../domain/sighting';
import type { RestoringView } from '../../screens/contract/records-view';
import { judgedDays, latestDay, onEachDay } from '../../packing/state/days';
import { pinRefusal } from '../../packing/badge/pin-rule';
import { createPinGate, type PinGate } from '../pin/pin-gate';
import { peopleInForce } from './in-force';
import type { Restorable, RestoredBy } from './restore';

export interface RestoringParts {
  readonly now: () => Instant;
  readonly pinFits: (pin: string, stored: string) => Promise<boolean>;
  readonly onChange: () => void;
  /** A lead has scanned a badge: it is done. */
  readonly onRestore: (what: Restorable, by: RestoredBy) => void;
  readonly onRefused: (why: string) => void;
}

/** Long enough to type a PIN. */
const PIN_WAIT_MS = 120_000;

export class Restoring {
  readonly pin: PinGate;
  private what: Restorable | null = null;
  private since: Instant | null = null;
  private insisted = false;
  private loft: Loft | null = null;
  private spent = new Set<string>();
  /** Wrong PINs cannot be facts of a journal that is empty: they are counted here. */
  private wrong: readonly Fact[] = [];

  constructor(private readonly parts: RestoringParts) {
    const { pinFits, onChange } = parts;
    this.pin = createPinGate({
      pinFits,
      onChange,
      handOn: (sighting) => this.decide(sighting),
      waitMs: PIN_WAIT_MS,
    });
  }

  view(): RestoringView | null {
    const { what, insisted } = this;
    if (what === null) return null;
    const { size } = what.file.head;
    const prompt = `Scan the badge of a lead to restore ${String(size)} facts.`;
    if (what.behind === null || insisted) return { prompt, behind: null };
    const lost = what.behind.size - size;
    const behind =
      `This file is older than what this kiosk has sealed: it holds ${String(size)} facts, and ` +
      `${String(what.behind.size)} were sealed here. The last ${String(lost)} would be lost, and the journal would say ` +
      'so for ever. Look for a newer copy first.';
    return { prompt, behind };
  }

  offer(what: Restorable): void {
    this.what = what;
    this.since = this.parts.now();
    this.insisted = false;
  }

  /** Although the seals know of more. Badges from before do not count for that. */
  insist(): void {
    this.insisted = true;
    this.since = this.parts.now();
    this.parts.onChange();
  }

  cancel(): void {
    this.what = null;
    this.pin.cancel();
    this.parts.onChange();
  }

  sighted(sighting: Sighting, loft: Loft): void {
    this.loft = loft;
    if (this.what !== null && this.pin.view() === null) this.decide(sighting);
  }

  private decide(sighting: Sighting): void {
    const { what, loft, parts } = this;
    if (what === null || loft === null) return;
    const person = this.mayBe(sighting, loft);
    if (!person.ok) return parts.onRefused(person.detail);
    const at = parts.now();
    const against = pinRefusal(
      { loft, facts: [], elsewhere: this.wrong },
      { person: person.value, use: 'signature' },
      { sighting, at },
    );
    if (against?.reason === 'pin-needed') return this.pin.ask(person.value, sighting);
    if (against !== null) {
      if (against.reason === 'pin-wrong') this.countWrong(person.value, at);
      return parts.onRefused(against.detail);
    }
    this.spent.add(sighting.id);
    this.what = null;
    const pin = sighting.meaning.kind === 'badge' && sighting.meaning.pin === 'fits';
    parts.onRestore(what, { by: person.value.id, sighting: sighting.id, at, pin, people: peopleInForce(loft) });
  }

  private mayBe({ id, at, meaning }: Sighting, loft: Loft): Result<Person> {
    const { what, since, insisted, spent } = this;
    if (meaning.kind !== 'badge') return refused('not-a-badge', 'That is no badge. Scan the badge of a lead.');
    if (what?.behind !== null && !insisted) {
      return refused(
        'older',
        'This file is older than what was sealed here. Choose a newer copy, or press Restore all the same.',
      );
    }
    if (spent.has(id) || since === null || epochMs(at) < epochMs(since)) {
      return refused('old-scan', 'That badge was scanned before the file was checked. Scan it again.');
    }
    const person = personOfBadge(loft.people, meaning.badgeDigest);
    if (person === null) return refused('unknown', 'This badge belongs to nobody in this loft. A lead must restore.');
    // The copy may know of a later day than a clock that was set back.
    const days = judgedDays(latestDay(what?.file.facts.map(({ fact }) => fact) ?? []), this.parts.now());
    const may = onEachDay(days, (on) => mayRestore(person, on));
    return may.ok ? ok(person) : may;
  }

  private countWrong(person: Person, at: Instant): void {
    const detail = 'The PIN is wrong.';
    const body = { kind: 'scanRefused', reason: 'pin-wrong', detail, where: 'restore' } as const;
    this.wrong = [...this.wrong, { seq: this.wrong.length, pack: '', at, by: person.id, body }];
  }
}
