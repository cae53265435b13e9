/** The verifier's account of one pack: what the facts so far amount to, kept apart from whether they were right. */
import type { Fact, FactBody } from '../../../domain/fact';
import type { PersonInForce } from '../../../domain/person';
import type { Hold, Procedure, Stage } from '../../../domain/procedure';
import { micrometres } from '../sums/lengths';
import { mayEndWith } from '../sums/stow-sums';

export type BodyOf<K extends FactBody['kind']> = Extract<FactBody, { kind: K }>;

export interface Done {
  confirmed: boolean;
  counted: number | null;
  stows: number;
  measured: BodyOf<'measured'>['value'] | null;
  moved: boolean;
  /** Who packed when something was last done. */
  by: string | null;
}

export interface Present {
  readonly hold: string;
  readonly inspector: string;
  readonly sighting: string;
  readonly at: string;
}

/** What the kiosk puts beside an act in the same write. */
const NOTED_BESIDE: readonly string[] = ['peopleInForce', 'procedureInForce'];

function isCheckForSignature(body: FactBody): boolean {
  return body.kind === 'recheckPassed' && body.occasion === 'signed';
}

export class Account {
  /** Which rules the pack was recorded under. */
  edition = 1;
  people: ReadonlyMap<string, PersonInForce> | null = null;
  work: BodyOf<'procedureInForce'> | null = null;
  packers: string[] = [];
  packer: string | null = null;
  identified = new Map<string, string>();
  /** A mark was scanned that named two items, or another one than the books. */
  disagreed = false;
  agreed: BodyOf<'assemblyAgreed'> | null = null;
  checkedIn: boolean | null = null;
  /** Serials of the components that the packer looked over, and whether nothing was found. */
  inspected = new Map<string, { readonly serial: string; readonly good: boolean; readonly finding: string | null }>();
  /** The last time that the checks were made again: whether they passed, on what occasion, and when. */
  rechecked: { readonly passed: boolean; readonly occasion: string; readonly at: string } | null = null;
  out = new Map<string, number>();
  /** Counted before the container was closed. */
  accounted = new Map<string, number>();
  back = new Map<string, number>();
  /** Counts of temporary items that stand. */
  tray = new Set<'closing' | 'signature'>();
  stages = new Map<string, Done>();
  released = new Map<string, { readonly inspector: string; readonly at: string }>();
  inside = new Set<string>();
  placed = new Map<string, number>();
  removed = new Map<string, number>();
  judged = new Set<string>();
  present: Present | null = null;
  /** Whoever has given a PIN in this pack since it was last taken up. */
  known = new Set<string>();
  standingBy = false;
  returns: readonly BodyOf<'holdReturned'>[] = [];
  reopenings: readonly { readonly backTo: string; readonly by: string }[] = [];
  /** Values outside their band. */
  outsides: readonly BodyOf<'measured'>[] = [];
  /** Number of the signature that stands, while the pack waits for its final inspection. */
  signed: number | null = null;
  card = false;
  ended: 'signed' | 'closed' | 'stopped' | null = null;
  /** Jumps of the clock on record, in order; those that stand right ahead of the fact at hand, the kiosk's notes aside. */
  jumps: readonly BodyOf<'clockJumped'>[] = [];
  lateJumps = 0;

  done(stage: string): Done {
    return (
      this.stages.get(stage) ?? { confirmed: false, counted: null, stows: 0, measured: null, moved: false, by: null }
    );
  }

  /** Enters one fact, right or wrong. Facts that were taken back are left out by the caller. */
  enter({ seq, at, by, body }: Fact): void {
    // An inspector who is present stays so only while nothing but refused scans, or notes of the kiosk's own, is stored.
    if (!['scanRefused', 'clockJumped', 'peopleInForce', 'procedureInForce', 'recheckPassed'].includes(body.kind))
      this.present = null;
    if (['restarted', 'stoodBy', 'handedOver'].includes(body.kind)) this.known = new Set();
    if (body.kind === 'clockJumped') {
      this.jumps = [...this.jumps, body];
      this.lateJumps += 1;
    } else if (!NOTED_BESIDE.includes(body.kind) && !isCheckForSignature(body)) this.lateJumps = 0;
    if (body.kind === 'packOpened') {
      this.edition = body.edition ?? 1;
      this.becomesPacker(body.packer);
    } else if (body.kind === 'inspected')
      this.inspected.set(body.component, { serial: body.serial, good: body.result === 'good', finding: body.finding });
    else if (body.kind === 'handedOver') {
      this.unsign();
      this.becomesPacker(body.to);
    } else if (body.kind === 'peopleInForce') this.people = new Map(body.people.map((one) => [one.id, one]));
    else if (body.kind === 'procedureInForce') this.work = body;
    else if (body.kind === 'componentIdentified') this.identified.set(body.component, body.serial);
    else if (body.kind === 'assemblyAgreed') this.agreed = body;
    else if (body.kind === 'checkInPassed') this.checkedIn = true;
    else if (body.kind === 'checkInFailed') this.checkedIn = false;
    else if (body.kind === 'recheckPassed' || body.kind === 'recheckFailed') {
      this.rechecked = { passed: body.kind === 'recheckPassed', occasion: body.occasion, at };
    } else if (body.kind === 'toolIssued') this.out.set(body.tool, body.count);
    else if (body.kind === 'toolAccounted') this.accounted.set(body.tool, body.count);
    else if (body.kind === 'itemsAccounted') this.tray.add(body.before);
    else if (body.kind === 'toolReturned') this.back.set(body.tool, body.count);
    else if (body.kind === 'reopened') {
      this.reopenings = [...this.reopenings, { backTo: body.backTo, by: by ?? '' }];
      this.goesBack(body.backTo);
    } else if (body.kind === 'inspectorPresent') {
      if (body.pin === true) this.known.add(body.inspector);
      this.present = { hold: body.hold, inspector: body.inspector, sighting: body.sighting, at };
    } else if (body.kind === 'holdReleased') {
      this.judged.add(body.inspector);
      this.released.set(body.hold, { inspector: body.inspector, at });
    } else if (body.kind === 'holdReturned') {
      this.judged.add(body.inspector);
      this.returns = [...this.returns, body];
      this.goesBack(body.backTo);
    } else if (body.kind === 'scanRefused') {
      this.disagreed ||= body.reason === 'marks-disagree';
      // A wrong one ends what a right one began.
      if (body.reason === 'pin-wrong' && by !== null) this.known.delete(by);
    } else if (body.kind === 'stoodBy' || (body.kind === 'restarted' && body.standsBy === true)) this.standingBy = true;
    else if (body.kind === 'resumed') this.standingBy = false;
    else if (body.kind === 'signed') {
      if (body.awaits === undefined) this.ended = 'signed';
      else this.signed = seq;
    } else if (body.kind === 'cardPlaced') this.card = true;
    else if (body.kind === 'packClosed') this.ended = 'closed';
    else if (body.kind === 'stopped') this.ended = 'stopped';
    else this.works(body);
  }

  private works(body: FactBody): void {
    const change = (stage: string, done: Partial<Done>): void =>
      void this.stages.set(stage, { ...this.done(stage), ...done, by: this.packer });
    if (body.kind === 'stageConfirmed') change(body.stage, { confirmed: true });
    if (body.kind === 'counted') change(body.stage, { counted: body.count });
    if (body.kind === 'stowed') change(body.stage, { stows: this.done(body.stage).stows + body.count });
    if (body.kind === 'measured') {
      if (body.within) change(body.stage, { measured: body.value });
      else this.outsides = [...this.outsides, body];
    }
    if (body.kind === 'itemPlaced' || body.kind === 'itemRemoved') {
      const put = body.kind === 'itemPlaced';
      const counts = put ? this.placed : this.removed;
      counts.set(body.item, (counts.get(body.item) ?? 0) + 1);
      if (put) this.inside.add(body.item);
      else this.inside.delete(body.item);
      if (body.stage !== null) change(body.stage, { moved: true });
    }
  }

  private becomesPacker(packer: string): void {
    this.packer = packer;
    if (!this.packers.includes(packer)) this.packers = [...this.packers, packer];
  }

  private unsign(): void {
    this.signed = null;
    this.card = false;
  }

  /** Everything from that stage on is undone, counts and holds included; an unknown name undoes all of it. */
  private goesBack(backTo: string): void {
    this.unsign();
    const { procedure } = this;
    if (procedure === null) return;
    const { stages, finalHold } = procedure;
    if (finalHold !== undefined) this.released.delete(finalHold.id);
    if (backTo === 'signature' && finalHold !== undefined) return;
    const from = Math.max(
      0,
      stages.findIndex(({ id }) => id === backTo),
    );
    for (const { id, hold } of stages.slice(from)) {
      this.stages.delete(id);
      if (hold !== null) this.released.delete(hold.id);
    }
    this.back.clear();
    this.tray.delete('signature');
    const closing = stages.findIndex(({ closes }) => closes === true);
    if (from > closing) return;
    this.accounted.clear();
    this.tray.delete('closing');
  }

  get procedure(): Procedure | null {
    return this.work?.procedure ?? null;
  }

  isDone(stage: Stage): boolean {
    const done = this.done(stage.id);
    if (stage.kind === 'confirm') return done.confirmed;
    if (stage.kind === 'count') return done.counted === stage.expected;
    if (stage.kind === 'stow') return done.confirmed && mayEndWith(stage.plan, done.stows);
    return stage.kind === 'measure' ? done.measured !== null : done.moved;
  }

  /** The first stage that is not done, or hold that is not released; null when nothing is left. */
  next(): { readonly stage: Stage; readonly hold: Hold | null } | null {
    for (const stage of this.procedure?.stages ?? []) {
      if (!this.isDone(stage)) return { stage, hold: null };
      if (stage.hold !== null && !this.released.has(stage.hold.id)) return { stage, hold: stage.hold };
    }
    return null;
  }

  /** Micrometres of line when this stowing stage begins. */
  lineAtStart(stage: Extract<Stage, { kind: 'stow' }>): number {
    const { line, lineFrom } = stage.plan;
    const measured = lineFrom === null ? null : this.done(lineFrom).measured;
    return micrometres(measured ?? line);
  }
}
