/**
 * Facts that the pack machine knows nothing of and that its facts cannot be judged without: the files in force when a
 * pack is opened, agreed or taken up again, and every jump of the clock. They are stored with the drafts that they belong to.
 */
import { assert } from '../../domain/assert';
import type { Fact, FactBody, FactDraft } from '../../domain/fact';
import { epochMs, type Instant } from '../../domain/instant';
import type { Loft } from '../../domain/loft';
import type { Procedure } from '../../domain/procedure';
import { makeCanonicalJson } from '../../record/chain/canonical-json';
import { peopleInForce, procedureInForce } from './in-force';

/** A moment as the wall clock says it, and as a clock that is never set counts it. */
export interface Moment {
  readonly at: Instant;
  readonly ms: number;
}

export interface Gathered {
  readonly drafts: readonly FactDraft[];
  /** For each draft, whether the machine asked for it. */
  readonly own: readonly boolean[];
}

type JumpBody = Extract<FactBody, { kind: 'clockJumped' }>;

/** Both clocks may drift apart by this much, in milliseconds, before it counts as a jump. */
export const DRIFT_MS = 10_000;

/** What was before this pack was taken up: time goes on from there, whichever pack it was in. */
export interface Before {
  /** When the last fact of the journal was made. */
  readonly lastAt?: Instant | null;
  /** The last moment at which this page stored anything. */
  readonly known?: Moment | null;
  /** The offset that the zone of this computer has at a moment. */
  readonly offsetAt?: ((at: Instant) => string) | undefined;
}

export class Circumstances {
  private people = '';
  private procedure = '';
  /** The procedure that this pack follows, once a fact holds it. */
  private frozen: Procedure | null = null;
  /** Nothing in the files differs from what is recorded. */
  private settled = false;
  private agreed: string | null = null;
  /** When the last fact of the journal was made. */
  private lastAt: Instant | null = null;
  private known: Moment | null;
  private readonly offsetAt: (at: Instant) => string;

  constructor(
    private loft: Loft,
    facts: readonly Fact[],
    before: Before = {},
  ) {
    facts.forEach((fact) => this.take(fact));
    this.lastAt = before.lastAt ?? this.lastAt;
    this.known = before.known ?? null;
    this.offsetAt = before.offsetAt ?? zoneOf;
  }

  /** The drafts with what belongs to them, in the order in which all of it is to be stored. */
  gather(drafts: readonly FactDraft[], now: Moment): Gathered {
    const all: { draft: FactDraft; own: boolean }[] = [];
    const jump = this.jumpOf(drafts, now);
    let before = this.lastAt;
    let jumpIsOwed = jump !== null;
    for (const draft of drafts) {
      if (jump !== null && jumpIsOwed && isBehind(jump, before, draft.at)) {
        all.push({ draft: { pack: draft.pack, at: jump.to, by: null, body: jump }, own: false });
        jumpIsOwed = false;
      }
      for (const body of this.ahead(draft.body)) {
        if (draft === drafts[0]) all.push({ draft: { pack: draft.pack, at: draft.at, by: null, body }, own: false });
      }
      all.push({ draft, own: true });
      for (const body of this.following(draft.body)) {
        all.push({ draft: { pack: draft.pack, at: draft.at, by: null, body }, own: false });
      }
      before = draft.at;
    }
    const last = drafts.at(-1);
    if (jump !== null && jumpIsOwed && last !== undefined) {
      all.push({ draft: { pack: last.pack, at: jump.to, by: null, body: jump }, own: false });
    }
    return { drafts: all.map(({ draft }) => draft), own: all.map(({ own }) => own) };
  }

  /** The files were read anew. What they say now is stored ahead of the next act, which is judged by it. */
  changed(loft: Loft): void {
    this.loft = loft;
    this.settled = false;
  }

  /** These facts are stored. */
  took(facts: readonly Fact[], now: Moment): void {
    facts.forEach((fact) => this.take(fact));
    this.known = now;
  }

  private take({ at, body }: Fact): void {
    this.lastAt = at;
    if (body.kind === 'peopleInForce') this.people = same(body.people);
    if (body.kind === 'procedureInForce') {
      this.procedure = same(body);
      this.frozen ??= body.procedure;
    }
    if (body.kind === 'assemblyAgreed') {
      this.agreed = body.assembly;
      this.settled = false;
    }
  }

  /** What belongs right behind this fact. */
  private following(body: FactBody): readonly FactBody[] {
    if (opens(body)) return this.changes(this.agreed);
    return body.kind === 'assemblyAgreed' ? this.changes(body.assembly) : [];
  }

  /** What has changed in the files since and belongs ahead of this fact, which was judged by it. */
  private ahead(body: FactBody): readonly FactBody[] {
    if (opens(body) || this.settled) return [];
    const changes = this.changes(this.agreed);
    this.settled = changes.length === 0;
    return changes;
  }

  /** Files that have not changed since they were recorded are not recorded again. */
  private changes(assembly: string | null): readonly FactBody[] {
    const people = peopleInForce(this.loft);
    const procedure = assembly === null ? null : procedureInForce(this.loft, assembly, this.frozen);
    return [
      ...(same(people.people) === this.people ? [] : [people]),
      ...(procedure === null || same(procedure) === this.procedure ? [] : [procedure]),
    ];
  }

  private jumpOf(drafts: readonly FactDraft[], now: Moment): JumpBody | null {
    if (this.known !== null) {
      const expected = epochMs(this.known.at) + (now.ms - this.known.ms);
      if (Math.abs(epochMs(now.at) - expected) > DRIFT_MS) {
        const zones = this.lastAt === null ? {} : this.zones(this.lastAt, now.at);
        return { kind: 'clockJumped', from: new Date(expected).toISOString(), to: now.at, ...zones };
      }
    }
    // However little: facts in their order must never seem to run backwards without saying so.
    let before = this.lastAt;
    for (const { at } of drafts) {
      if (before !== null && epochMs(at) < epochMs(before))
        return { kind: 'clockJumped', from: before, to: at, ...this.zones(before, at) };
      before = at;
    }
    return this.zoneChange(now.at);
  }

  /** Another offset: daylight saving where the zone of now had the old one then, and a zone that was set otherwise. */
  private zoneChange(to: Instant): JumpBody | null {
    const from = this.lastAt;
    if (from === null || zoneOf(from) === zoneOf(to)) return null;
    return { kind: 'clockJumped', from, to, ...this.zones(from, to) };
  }

  private zones(from: Instant, to: Instant): Partial<JumpBody> {
    const [zoneFrom, zoneTo] = [zoneOf(from), zoneOf(to)];
    if (zoneFrom === zoneTo) return {};
    const saving = this.offsetAt(from) === zoneFrom ? ({ daylightSaving: true } as const) : {};
    return { zoneFrom, zoneTo, ...saving };
  }
}

/** "+01:00"; Z is the same as +00:00. */
function zoneOf(at: Instant): string {
  return at.endsWith('Z') ? '+00:00' : at.slice(-6);
}

/** Where the files in force belong behind the fact: nothing is judged before it. */
function opens({ kind }: FactBody): boolean {
  return kind === 'packOpened' || kind === 'restarted';
}

/** Whether the draft was made after the jump: the first that lies behind its forerunner, or not before the new time. */
function isBehind(jump: { from: Instant; to: Instant }, before: Instant | null, at: Instant): boolean {
  const back = epochMs(jump.to) < epochMs(jump.from);
  if (back) return before !== null && epochMs(at) < epochMs(before);
  return epochMs(at) >= epochMs(jump.to) - DRIFT_MS;
}

/** For comparing; the parts come in the order of the schema from the store and in that of the files from the loft. */
function same(value: unknown): string {
  const text = makeCanonicalJson(value);
  assert(text.ok, 'files in force can be written as JSON');
  return text.value;
}
