/** Records that are found again by a serial, to be printed once more as marked copies. Nothing here changes a record. */
import type { Fact, FactBody } from '../../domain/fact';
import type { Instant } from '../../domain/instant';
import type { LogRecord } from '../../domain/log-record';
import type { Person } from '../../domain/person';
import { ok, type Result } from '../../domain/result';
import type { FoundRecord, RecordCopy, ReprintView } from '../../screens/contract/records-view';
import type { ProofState } from '../../screens/contract/proof-view';
import type { FinalInspection } from '../../packing/machine/view';
import type { LedgerFailure, LedgerPort } from '../../record/ledger';

/** Facts that are read at once. */
const BATCH = 500;
/** More records than anybody looks through; the newest are shown. */
const MOST_FOUND = 50;

type SignedBody = Extract<FactBody, { kind: 'signed' }>;
type SignedFact = Fact & { readonly body: SignedBody };

export interface ReprintsParts {
  readonly ledger: Pick<LedgerPort, 'head' | 'range' | 'read'>;
  /** The code by which the papers of this signed record prove themselves. */
  readonly proofOf: (signed: Fact) => Promise<ProofState>;
  readonly now: () => Instant;
  readonly onChange: () => void;
}

function isSigned(fact: Fact): fact is SignedFact {
  return fact.body.kind === 'signed';
}

function carries({ serials }: LogRecord, serial: string): boolean {
  return serials.some((one) => one.serial === serial);
}

export class Reprints {
  private people: readonly Person[] = [];
  private serial: string | null = null;
  private found: readonly FoundRecord[] = [];
  private copy: RecordCopy | null = null;
  private trouble: string | null = null;
  /** Counts searches: what a slower one before this finds is not shown. */
  private turn = 0;

  constructor(private readonly parts: ReprintsParts) {}

  /** Begins anew. `people`: whose names stand for the ids in facts. */
  know(people: readonly Person[]): void {
    this.people = people;
    this.close();
  }

  /** Null before anything was looked for. */
  view(): ReprintView | null {
    const { serial, found, copy, trouble } = this;
    return serial === null ? null : { serial, found, copy, trouble };
  }

  /** Looks for every record of the component with this serial, the newest first. */
  async find(serial: string): Promise<void> {
    const wanted = serial.trim();
    if (wanted === '') return this.close();
    this.turn += 1;
    const mine = this.turn;
    const found = await this.search(wanted);
    if (mine !== this.turn) return;
    this.serial = wanted;
    this.copy = null;
    this.trouble = found.ok ? null : `The journal cannot be read to its end (${found.reason}). Call the lead.`;
    this.found = found.ok ? found.value : [];
    this.parts.onChange();
  }

  /** Shows the papers of this pack's record as a copy. */
  async open(pack: string): Promise<void> {
    const facts = await this.parts.ledger.read(pack);
    const signed = facts.ok ? facts.value.filter(isSigned).at(-1) : undefined;
    if (!facts.ok || signed === undefined) {
      this.trouble = 'That record cannot be read. Call the lead.';
      return this.parts.onChange();
    }
    const { record, awaits } = signed.body;
    const final = awaits === undefined ? null : (this.finalOf(facts.value, signed.seq) ?? 'byHand');
    this.copy = { record, final, madeAt: this.parts.now(), proof: { state: 'making' } };
    this.parts.onChange();
    const opened = this.copy;
    const proof = await this.parts.proofOf(signed);
    if (this.copy !== opened) return;
    this.copy = { ...opened, proof };
    this.parts.onChange();
  }

  /** Back to the page as it was before. */
  close(): void {
    this.turn += 1;
    this.serial = null;
    this.found = [];
    this.copy = null;
    this.trouble = null;
    this.parts.onChange();
  }

  private async search(serial: string): Promise<Result<readonly FoundRecord[], LedgerFailure>> {
    const { ledger } = this.parts;
    const head = await ledger.head();
    if (!head.ok) return head;
    // Of each pack the last signature counts: one that was sent back at the final hold was signed anew.
    const byPack = new Map<string, FoundRecord>();
    for (let from = 0; from < head.value.size; from += BATCH) {
      const facts = await ledger.range(from, Math.min(BATCH, head.value.size - from));
      if (!facts.ok) return facts;
      for (const { pack, body } of facts.value) {
        if (body.kind === 'signed' && carries(body.record, serial)) {
          const { packedOn, assembly } = body.record;
          byPack.delete(pack);
          byPack.set(pack, { pack, packedOn, assembly, isClosed: body.awaits === undefined });
        }
        const one = byPack.get(pack);
        if (body.kind === 'packClosed' && one !== undefined) byPack.set(pack, { ...one, isClosed: true });
      }
    }
    return ok([...byPack.values()].reverse().slice(0, MOST_FOUND));
  }

  private finalOf(facts: readonly Fact[], signed: number): FinalInspection | null {
    const closed = facts.find(({ body }) => body.kind === 'packClosed' && body.signed === signed);
    if (closed?.body.kind !== 'packClosed') return null;
    const { hold, inspector } = closed.body;
    const bound = facts.map(({ body }) => body).findLast((body) => body.kind === 'procedureInForce');
    const person = this.people.find(({ id }) => id === inspector);
    const title = bound?.procedure?.finalHold?.id === hold ? bound.procedure.finalHold.title : hold;
    const certificate = person?.certificate ?? 'not on record';
    return { title, inspector: person?.name ?? inspector, certificate, at: closed.at };
  }
}
