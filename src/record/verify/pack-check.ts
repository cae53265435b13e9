/**
 * Goes through the facts of one pack in their order and asks of each whether it could happen there and then: by whom,
 * when, at which step, with which values. Knows nothing of the pack machine; it is told the rules a second time here.
 */
import type { Fact } from '../../domain/fact';
import type { Procedure } from '../../domain/procedure';
import { Account, type BodyOf } from './account';
import { againstAgain, againstInspector, onEachDay } from './again';
import { againstCheckIn } from './check-in';
import type { Note } from './finding';
import { againstAfterDamage, againstFinding, againstStop } from './findings';
import { digestOfProcedure, type Journal } from './journal';
import { againstProcedure, againstSignature, checkSignedPack } from './closing-check';
import { againstHandOver, isLong } from './hand-over';
import { againstInspection, checkStaged } from './stage-check';
import { againstPacking } from './qualified';
import { againstRecord } from './log-record';
import { hexAt, sha256 } from './sha256';

/** Acts of the kiosk itself, which nobody is named for. */
const KIOSK_ACTS: readonly string[] = [
  'assemblyAgreed',
  'checkInPassed',
  'checkInFailed',
  'recheckPassed',
  'recheckFailed',
  'restarted',
  'verdictLapsed',
  'peopleInForce',
  'procedureInForce',
  'clockJumped',
  'packClosed',
];
/** What can be taken back, and what nothing before can be taken back behind. */
const CORRECTABLE: readonly string[] = [
  'componentIdentified',
  'toolIssued',
  'toolAccounted',
  'itemsAccounted',
  'toolReturned',
  'cardPlaced',
  'stageConfirmed',
  'counted',
  'stowed',
  'measured',
  'itemPlaced',
  'itemRemoved',
];
const BARRIERS: readonly string[] = [
  'assemblyAgreed',
  'checkInPassed',
  'checkInFailed',
  'inspected',
  'holdReleased',
  'holdReturned',
  'reopened',
  'signed',
];
/** Acts that only the packer of the moment can do. */
const PACKER_ACTS: readonly string[] = [
  ...CORRECTABLE,
  'packOpened',
  'inspected',
  'inspectorCalled',
  'corrected',
  'stoodBy',
  'resumed',
  'reopened',
  'signed',
];
const INSPECTOR_ACTS: readonly string[] = ['inspectorPresent', 'holdReleased', 'holdReturned'];
/** Beside these, nothing is done in a pack whose checks failed when they were made again. */
const WHILE_FAILED: readonly string[] = [
  ...KIOSK_ACTS,
  'stoodBy',
  'resumed',
  'handedOver',
  'scanRefused',
  'reopened',
  'stopped',
];
/** Beside these, nothing is done while a pack stands by. */
const WHILE_STANDING_BY: readonly string[] = [...KIOSK_ACTS, 'resumed', 'handedOver', 'scanRefused'];

export class PackCheck {
  private account = new Account();
  private facts: Fact[] = [];
  private readonly takenBack = new Set<number>();
  private lastMs = Number.NEGATIVE_INFINITY;
  private jumped = false;
  /** When somebody last did something; refused scans aside. */
  private lastActMs = Number.NEGATIVE_INFINITY;
  /** The days by which the fact at hand is judged. */
  private days: readonly string[] = [];

  /** `journal` knows what happened in the other packs. */
  constructor(private readonly journal: Journal) {}

  /** The next fact of this pack; what is wrong with it goes to `note`. Throws on a body that is not of its kind's form. */
  take(fact: Fact, note: Note): void {
    this.checkTime(fact, note);
    this.days = this.edition(fact) < 2 ? [fact.at.slice(0, 10)] : this.journal.daysAt(fact.at);
    this.checkActor(fact, note);
    if (this.account.ended !== null) {
      note('ended', `Fact ${fact.seq} was added after the pack had been ${this.account.ended}.`);
    } else {
      this.checkAct(fact, note);
    }
    this.facts.push(fact);
    const { body } = fact;
    if (body.kind === 'inspectorPresent' || body.kind === 'handedOver' || body.kind === 'signed') {
      this.journal.spent.add(body.sighting);
    }
    if (body.kind === 'resumed' && body.sighting !== undefined) this.journal.spent.add(body.sighting);
    if (body.kind === 'handedOver' && body.fromSighting !== undefined) this.journal.spent.add(body.fromSighting);
    if (fact.by !== null && body.kind !== 'scanRefused') this.lastActMs = Math.max(this.lastActMs, Date.parse(fact.at));
    if (fact.body.kind === 'corrected') this.takeBack(fact.body.fact, note);
    else this.account.enter(fact);
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

  private checkActor({ seq, by, body }: Fact, note: Note): void {
    const { kind } = body;
    if (KIOSK_ACTS.includes(kind)) {
      if (by !== null) note('who', `Fact ${seq} is an act of the kiosk, but names ${by}.`);
    } else if (kind === 'packOpened') {
      if (by !== body.packer) note('who', `Fact ${seq} opens the pack for ${body.packer}, but names ${String(by)}.`);
    } else if (kind === 'handedOver') {
      if (by !== body.to) note('who', `Fact ${seq} hands over to ${body.to}, but names ${String(by)}.`);
    } else if (PACKER_ACTS.includes(kind)) {
      if (by !== this.account.packer) note('who', `Fact ${seq} names ${String(by)}, who did not pack at that time.`);
    } else if (INSPECTOR_ACTS.includes(kind)) {
      if (!('inspector' in body) || by !== body.inspector) note('who', `Fact ${seq} is not its inspector’s own act.`);
    } else if (kind !== 'scanRefused' && kind !== 'stopped') {
      note('unreadable', `Fact ${seq} is of a kind that is not known here.`);
    }
  }

  private checkAct(fact: Fact, note: Note): void {
    const { seq, body } = fact;
    const { account } = this;
    // A clock that was set back between two packs is told ahead of the opening.
    const begun = this.facts.some((one) => one.body.kind !== 'clockJumped');
    if (!begun && body.kind !== 'packOpened' && body.kind !== 'clockJumped')
      note('order', `Fact ${seq} begins a pack that nobody opened.`);
    if (account.standingBy && !WHILE_STANDING_BY.includes(body.kind)) {
      note('order', `Fact ${seq} happened while the pack stood by.`);
    }
    checkSignedPack(account, fact, note);
    const before = this.before();
    const undone = againstAfterDamage(before, fact);
    if (undone !== null) note('hold', undone);
    if (account.rechecked?.passed === false && !WHILE_FAILED.includes(body.kind)) {
      note('order', `Fact ${seq} happened although the checks had failed when they were made again.`);
    }
    switch (body.kind) {
      case 'packOpened':
        if (begun) note('order', `Fact ${seq} opens a pack that was open already.`);
        return;
      case 'peopleInForce':
        return this.checkOpener(body, note);
      case 'procedureInForce':
        return this.checkProcedure(fact, body, note);
      case 'checkInPassed':
        for (const line of body.checks) if (line.passed !== true) note('check-in', `“${line.label}” did not pass.`);
        for (const why of onEachDay(this.days, (on) => againstCheckIn(account, on))) note('check-in', why);
        return this.againstPacker(fact, account.packer, note);
      case 'recheckPassed':
        for (const line of body.checks) if (line.passed !== true) note('check-in', `“${line.label}” did not pass.`);
        for (const { what, detail } of againstAgain(account, this.days)) note(what, `Fact ${fact.seq}: ${detail}`);
        return;
      case 'inspectorPresent':
      case 'holdReleased':
      case 'holdReturned':
        return this.checkHold(fact, body, note);
      case 'handedOver':
        return this.checkHandOver(fact, body, note);
      case 'resumed':
        return this.checkResumed(fact, body, note);
      case 'restarted':
        if (account.edition >= 2 && body.standsBy !== true && !account.standingBy && this.wasLong(fact))
          note('who', `Fact ${seq} goes on after a long break without standing by for a badge.`);
        return;
      case 'stopped':
        for (const why of againstStop(before, fact, body)) note('who', why);
        return;
      case 'signed':
        return this.checkSigned(fact, body, note);
      default:
        return checkStaged(account, fact, note);
    }
  }

  private before(): Parameters<typeof againstStop>[0] {
    const { procedure, packer, identified, edition } = this.account;
    const fact = this.facts.at(-1);
    const of = fact?.body.kind === 'holdReturned' ? fact.body.hold : null;
    const hold = procedure?.stages.find((stage) => stage.hold?.id === of)?.hold ?? null;
    return { fact, hold, edition, packer, identified };
  }

  /** The first people file after the opening tells whether the pack could be opened with that badge. */
  private checkOpener(body: BodyOf<'peopleInForce'>, note: Note): void {
    const opened = this.facts.find((one) => one.body.kind === 'packOpened');
    if (this.account.people !== null || opened?.body.kind !== 'packOpened') return;
    const { packer } = opened.body;
    const person = body.people.find(({ id }) => id === packer);
    const against = againstPacking(person, null, opened.at.slice(0, 10));
    if (against !== null) note('who', `The pack was opened by ${packer}, who ${against}.`);
    const { badge, badgeDigest } = opened.body;
    const digest = badgeDigest ?? (badge === undefined ? '' : hexAt(sha256(new TextEncoder().encode(badge))));
    if (person?.badges.includes(digest) !== true) {
      note('who', `The pack was opened with a badge that is none of ${packer}’s.`);
    }
  }

  private checkProcedure(fact: Fact, body: BodyOf<'procedureInForce'>, note: Note): void {
    const { seq } = fact;
    const { agreed } = this.account;
    const { assembly, procedure } = body;
    // Later on the books may name another procedure: then the pack must be stopped, which `againstAgain` looks at.
    const named = this.account.work !== null || agreed?.procedure === assembly.procedure;
    const fits =
      agreed?.assembly === assembly.id &&
      named &&
      (procedure === null || procedure.id !== agreed.procedure || procedure.revision === agreed.revision);
    if (!fits) note('identity', `Fact ${seq} is not about the assembly and procedure that were agreed.`);
    if (procedure === null) return;
    this.checkContent(seq, procedure, note);
    for (const why of againstProcedure(procedure, this.account.edition)) note('order', `Fact ${seq}: ${why}`);
  }

  /** One id and revision has one content, in this pack and in the whole journal. */
  private checkContent(seq: number, procedure: Procedure, note: Note): void {
    const digest = digestOfProcedure(procedure);
    const { agreed } = this.account;
    if (agreed !== null && agreed.digest === undefined && this.account.edition >= 2) {
      note('identity', `Fact ${seq}: the procedure was agreed without its digest.`);
    }
    if (agreed?.digest !== undefined && agreed.digest !== digest) {
      note('identity', `Fact ${seq} holds another procedure than the one whose digest was agreed.`);
    }
    const other = this.journal.otherContent(procedure, digest, seq);
    if (other === null) return;
    const { id, revision } = procedure;
    note('identity', `Procedure ${id}, revision ${revision}, is something else in fact ${seq} than in ${other.seq}.`);
  }

  private againstPacker(fact: Fact, packer: string | null, note: Note): void {
    const { people, work } = this.account;
    if (people === null) return note('who', `Fact ${fact.seq}: no people file in force is on record.`);
    const model = work?.assembly.model ?? null;
    const [against] = onEachDay(this.days, (on) => againstPacking(people.get(packer ?? ''), model, on));
    if (against !== undefined) note('who', `Fact ${fact.seq}: ${String(packer)} ${against}, and may not pack this.`);
  }

  private checkHandOver(fact: Fact, body: BodyOf<'handedOver'>, note: Note): void {
    const { account } = this;
    if (!account.standingBy) note('order', `Fact ${fact.seq} hands over a pack that did not stand by.`);
    if (body.from !== account.packer) note('who', `Fact ${fact.seq} is handed over by ${body.from}, who did not pack.`);
    if (account.judged.has(body.to))
      note('who', `Fact ${fact.seq}: ${body.to} has inspected this pack, and may not pack it.`);
    this.checkFresh(fact, body.sighting, note);
    if (body.fromSighting !== undefined) this.checkFresh(fact, body.fromSighting, note);
    for (const why of againstHandOver(account, body, this.days))
      note('who', `Fact ${fact.seq} is a hand-over that ${why}.`);
    this.againstPacker(fact, body.to, note);
  }

  private wasLong({ at }: Fact): boolean {
    return isLong(this.account, Date.parse(at) - this.lastActMs);
  }

  private checkResumed(fact: Fact, body: BodyOf<'resumed'>, note: Note): void {
    const { account } = this;
    const { seq } = fact;
    if (!account.standingBy || body.packer !== account.packer)
      note('order', `Fact ${seq} resumes what did not stand by.`);
    if (body.sighting !== undefined) this.checkFresh(fact, body.sighting, note);
    else if (account.edition >= 2 && this.wasLong(fact))
      note('who', `Fact ${seq} resumes after a long break without the badge of ${body.packer}.`);
  }

  private checkFresh({ seq }: Fact, sighting: string, note: Note): void {
    if (this.journal.spent.has(sighting)) note('hold', `Fact ${seq} rests on a scan that had been used already.`);
  }

  private checkHold(fact: Fact, body: BodyOf<'inspectorPresent' | 'holdReleased' | 'holdReturned'>, note: Note): void {
    const { account } = this;
    const { seq } = fact;
    const { finalHold, stages = [] } = account.procedure ?? {};
    const isFinal = finalHold?.id === body.hold;
    const next = account.next();
    const isNext = isFinal ? next === null && account.signed !== null && account.card : next?.hold?.id === body.hold;
    if (!isNext) note('order', `Fact ${seq}: hold ${body.hold} was not what was next.`);
    const hold = isFinal ? finalHold : stages.find((stage) => stage.hold?.id === body.hold)?.hold;
    if (account.people === null || hold === undefined || hold === null || account.work === null) {
      return note('who', `Fact ${seq}: whether ${body.inspector} may inspect ${body.hold} is not on record.`);
    }
    const { model } = account.work.assembly;
    const of = { model, holdClass: hold.inspectorClass, days: this.days };
    const [against] = againstInspector(account, body.inspector, of);
    if (against !== undefined) note('who', `Fact ${seq}: ${body.inspector} ${against}, and may not inspect this.`);
    if (body.kind === 'inspectorPresent') {
      const { pin = 'never' } = account.work;
      const wanted = pin === 'eachHold' || (pin === 'firstUse' && !account.known.has(body.inspector));
      if (wanted && body.pin !== true)
        note('who', `Fact ${seq}: the PIN of ${body.inspector} was wanted and not given.`);
      return this.checkFresh(fact, body.sighting, note);
    }
    this.checkPresence(fact, body, note);
    if (body.kind !== 'holdReturned') return;
    for (const why of againstFinding(hold, body, seq)) note('hold', why);
    if (isFinal && body.backTo === 'signature') return;
    const backTo = stages.findIndex(({ id }) => id === body.backTo);
    const holds = isFinal ? stages.length : stages.findIndex((stage) => stage.hold?.id === body.hold);
    if (backTo < 0 || backTo > holds) note('hold', `Fact ${seq} goes back to a stage that lies not before its hold.`);
  }

  /** A verdict must follow its own inspector's scan, and in time. */
  private checkPresence(fact: Fact, body: BodyOf<'holdReleased' | 'holdReturned'>, note: Note): void {
    const { present, work } = this.account;
    const { seq, at } = fact;
    const same =
      present?.hold === body.hold && present.inspector === body.inspector && present.sighting === body.sighting;
    if (!same) return note('hold', `Fact ${seq} is a verdict without a fresh scan of its inspector.`);
    const seconds = (Date.parse(at) - Date.parse(present.at)) / 1000;
    if (!(seconds >= 0 && seconds < (work?.verdictSeconds ?? 0))) {
      note('hold', `Fact ${seq} is a verdict ${Math.round(seconds)} seconds after the scan.`);
    }
  }

  private checkSigned(fact: Fact, body: BodyOf<'signed'>, note: Note): void {
    const { account } = this;
    const { seq, at, pack } = fact;
    if (account.checkedIn !== true) note('order', `Fact ${seq} signs a pack that was not checked in.`);
    const unseen = againstInspection(account);
    if (unseen !== null) note('inspection', `Fact ${seq} signs ${unseen}.`);
    if (body.packer !== account.packer) note('who', `Fact ${seq} is signed by ${body.packer}, who did not pack.`);
    this.againstPacker(fact, body.packer, note);
    this.checkFresh(fact, body.sighting, note);
    const { pin = 'never' } = account.work ?? {};
    if (account.edition >= 2 && pin !== 'never' && body.pin !== true) {
      note('who', `Fact ${seq}: the PIN of ${body.packer} was wanted for the signature and not given.`);
    }
    this.checkGround(fact, note);
    const { procedure } = account;
    if (procedure === null) return note('record', `Fact ${seq}: the procedure is not on record.`);
    for (const stage of procedure.stages) {
      if (!account.isDone(stage)) note('order', `Fact ${seq} signs although stage ${stage.id} is not done.`);
      if (stage.hold !== null && !account.released.has(stage.hold.id)) {
        note('hold', `Fact ${seq} signs although hold ${stage.hold.id} is not released.`);
      }
    }
    for (const tool of procedure.tools) {
      const [out, back] = [account.out.get(tool.id), account.back.get(tool.id)];
      if (out !== tool.count || back !== out) note('tool', `Fact ${seq} signs although tool ${tool.id} is not back.`);
    }
    for (const why of againstSignature(account, body)) note('order', `Fact ${seq} is a signature that ${why}.`);
    for (const item of account.inside) note('item', `Fact ${seq} signs although item ${item} is in.`);
    for (const why of againstRecord(account, body.record, { pack, at })) note('record', why);
  }

  /** A signature rests on checks made in the same breath, and on nothing that lies ahead of it. */
  private checkGround({ seq, at }: Fact, note: Note): void {
    const { edition, rechecked } = this.account;
    if (edition < 2) return;
    const again = rechecked?.passed === true && rechecked.occasion === 'signed' && rechecked.at === at;
    if (!again) note('order', `Fact ${seq} signs although the checks were not made again.`);
    const ahead = this.facts.find((fact) => Date.parse(fact.at) > Date.parse(at));
    if (ahead !== undefined) note('time', `Fact ${seq} is signed before fact ${ahead.seq}, on which it rests.`);
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
