/** The page of open tags at run time: the pure steps, the PIN, and the journal. */
import type { Channel, Command } from '../../domain/command';
import type { ComponentBook } from '../../domain/component/component-book';
import { LOFT_STREAM, type Fact, type FactBody } from '../../domain/fact';
import type { Loft } from '../../domain/loft';
import type { Sighting } from '../../domain/sighting';
import { latestDay } from '../../packing/state/days';
import { pinRefusal } from '../../packing/badge/pin-rule';
import { mayClear, tagBadge, tagCommand, tagLegal, tagRefused, tagStored } from '../../packing/tags/tag-work';
import { TAGS_BEGIN, type TagMove, type TagPlace, type TagState } from '../../packing/tags/tag-work';
import { tagsView, type TagsView } from '../../packing/tags/tags-view';
import { ok, type Result } from '../../domain/result';
import { RECENT } from '../pack/open-pack-input';
import type { Head, LedgerFailure } from '../../record/ledger';
import { sayLedgerFailure } from '../pack/pack-runner';
import type { KioskParts } from '../parts';
import { createPinGate, type PinGate } from '../pin/pin-gate';
import { Circumstances, type Moment } from '../record/circumstances';
import type { JournalBook } from './journal-book';

export interface TagsPageParts {
  readonly parts: KioskParts;
  readonly book: JournalBook;
  readonly loft: Loft;
  readonly head: Head;
  /** The last moment at which this page stored anything. */
  readonly known: Moment | null;
  readonly onChange: () => void;
  readonly leave: () => void;
}

/** What the journal said when the page was opened. */
interface Read {
  readonly book: ComponentBook;
  /** The last facts of the journal: wrong PINs there cost waits here. */
  readonly recent: readonly Fact[];
}

export interface TagsPage {
  view(): TagsView;
  readonly pin: PinGate;
  command(command: Command, channel: Channel): void;
  sighted(sighting: Sighting): void;
  head(): Head;
  /** The last moment at which anything was stored; null for none in this page. */
  known(): Moment | null;
  /** The loft's files have changed. */
  files(loft: Loft): void;
}

/** Reads the journal and opens the page. A journal that cannot be read shows no tags, rather than none open. */
export async function openTagsPage(given: TagsPageParts): Promise<Result<TagsPage, LedgerFailure>> {
  const book = await given.book.read();
  if (!book.ok) return book;
  const recent = await given.parts.ledger.recent(RECENT);
  return recent.ok ? ok(new OpenTags(given, { book: book.value, recent: recent.value })) : recent;
}

class OpenTags implements TagsPage {
  readonly pin: PinGate;
  private state: TagState = TAGS_BEGIN;
  private place: TagPlace;
  private at: Head;
  private recent: readonly Fact[];
  private last: Moment | null;
  private readonly circumstances: Circumstances;

  constructor(
    private readonly given: TagsPageParts,
    { book, recent }: Read,
  ) {
    const { loft, head, known, onChange, parts } = given;
    this.place = { loft, book, latestDay: latestDay(recent) };
    this.at = head;
    this.recent = recent;
    this.last = known;
    const before = { lastAt: recent.at(-1)?.at ?? null, known, offsetAt: parts.offsetAt };
    this.circumstances = new Circumstances(loft, [], before);
    this.pin = createPinGate({
      pinFits: parts.pinFits ?? (() => Promise.resolve(false)),
      handOn: (sighting) => this.badge(sighting),
      onChange,
      waitMs: loft.settings.verdictSeconds * 1_000,
    });
  }

  view(): TagsView {
    return tagsView(this.state, this.place);
  }

  head(): Head {
    return this.at;
  }

  known(): Moment | null {
    return this.last;
  }

  files(loft: Loft): void {
    this.place = { ...this.place, loft };
    this.circumstances.changed(loft);
  }

  command(command: Command, channel: Channel): void {
    if (this.pin.view() !== null) return;
    const isLegal = tagLegal(this.state, this.place).some(({ name }) => name === command.name);
    if (command.name === 'finish' && isLegal) return this.given.leave();
    this.follow(tagCommand(this.state, this.place, { command, channel, at: this.given.parts.now() }));
  }

  sighted(sighting: Sighting): void {
    if (this.pin.view() === null) this.badge(sighting);
  }

  /** The loft's rule on PINs holds here as at a signature. */
  private badge(sighting: Sighting): void {
    const { step } = this.state;
    const person = step.at === 'badge' ? mayClear(this.place, step.tag, { sighting, at: sighting.at }) : null;
    if (person?.ok !== true) return this.follow(tagBadge(this.state, this.place, sighting));
    const at = this.given.parts.now();
    const context = { loft: this.place.loft, facts: [], elsewhere: this.recent };
    const against = pinRefusal(context, { person: person.value, use: 'signature' }, { sighting, at });
    if (against === null) return this.follow(tagBadge(this.state, this.place, sighting));
    if (against.reason === 'pin-needed') return this.pin.ask(person.value, sighting);
    if (against.reason === 'pin-wrong') {
      const { reason, detail } = against;
      const { payloadDigest } = sighting;
      const body: FactBody = { kind: 'scanRefused', reason, detail, payloadDigest, where: 'tags' };
      void this.append(person.value.id, body);
    }
    this.follow(tagRefused(this.state, against.detail));
  }

  private follow({ state, store }: TagMove): void {
    this.state = state;
    this.given.onChange();
    if (store !== null) void this.store(store.by, store.body);
  }

  private async store(by: string, body: FactBody): Promise<void> {
    const failure = await this.append(by, body);
    const book = failure === null ? await this.given.book.read() : null;
    if (book?.ok === true) this.place = { ...this.place, book: book.value };
    this.follow(tagStored(this.state, failure));
  }

  /** With the people in force before it, so that anybody can tell later whether that person might, and a jump of the clock. */
  private async append(by: string, body: FactBody): Promise<string | null> {
    const { parts } = this.given;
    const moment = { at: parts.now(), ms: parts.nowMs() };
    const { drafts } = this.circumstances.gather([{ pack: LOFT_STREAM, at: moment.at, by, body }], moment);
    const stored = await parts.ledger.append(this.at, drafts).catch(() => null);
    if (stored === null) return sayLedgerFailure('unavailable');
    if (!stored.ok) return sayLedgerFailure(stored.reason);
    this.at = stored.value.head;
    this.recent = [...this.recent, ...stored.value.facts];
    this.place = { ...this.place, latestDay: latestDay(this.recent) };
    this.circumstances.took(stored.value.facts, moment);
    this.last = moment;
    return null;
  }
}
