/** The records page at run time: export, check, restore and copies; and the proof of each record that is signed. */
import type { Fact } from '../../domain/fact';
import type { Loft } from '../../domain/loft';
import type { Sighting } from '../../domain/sighting';
import type { GivenFile, RecordsOutcome, RecordsView } from '../../screens/contract/records-view';
import type { ProofState } from '../../screens/contract/proof-view';
import type { Restorable, RestoredBy } from './restore';
import { Reprints } from './reprints';
import { Restoring } from './restoring';
import { Copies } from './copies';
import type { RecordsParts } from './records-parts';
import { bad, good, linesOf, PERSISTENCE, sayLost, sayWhose } from './records-words';
import { drawCardCode } from './card-code';
import { askRoom, megabytes, roomWarning } from './storage-room';

/** What the kiosk asks of the records page. */
export interface RecordsPage {
  current(): RecordsView;
  /** What somebody must see to before it does harm: room that runs out, a copy that was not made; null for nothing. */
  trouble(): string | null;
  refresh(): Promise<void>;
  exportAll(): Promise<void>;
  verify(file: GivenFile): Promise<void>;
  /** Checks the file; restoring it then waits for a badge. */
  restore(file: GivenFile): Promise<void>;
  restoreOffered(): Promise<void>;
  readonly restoring: Restoring;
  readonly reprints: Reprints;
  /** A component is looked up; a badge is for what waits to be restored. */
  sighted(sighting: Sighting, loft: Loft): void;
  chooseFolder(): Promise<void>;
  /** Whether the code of a scanned card is genuine. */
  card(text: string): Promise<void>;
  /** The proof for the card of a record that was just signed; and a copy of the journal, where copies are wanted. */
  sealed(signed: Fact): Promise<ProofState>;
  /** A copy of the journal, where copies are wanted, with the end of the pack in it. */
  closed(): Promise<void>;
}

/** An export of a hundred years is smaller. */
const LARGEST_BYTES = 1_000_000_000;

/** What the page shows before it has looked at the journal. */
export const NOT_LOOKED_AT: RecordsView = {
  facts: 0,
  root: null,
  key: null,
  empty: false,
  backup: '',
  canChooseFolder: false,
  keeping: [],
  warning: null,
  outcome: null,
};

export class Records implements RecordsPage {
  private view: RecordsView = NOT_LOOKED_AT;
  readonly restoring: Restoring;
  readonly reprints: Reprints;
  private readonly copies: Copies;
  private busy = false;

  constructor(
    private readonly parts: RecordsParts,
    private readonly onChange: () => void,
  ) {
    this.copies = new Copies(parts);
    this.reprints = new Reprints({
      ledger: parts.store,
      proofOf: (signed) => this.proofOf(signed),
      now: parts.now,
      onChange,
    });
    this.restoring = new Restoring({
      now: parts.now,
      pinFits: parts.pinFits ?? (() => Promise.resolve(false)),
      onChange,
      onRestore: (what, by) => void this.putBack(what, by),
      onRefused: (why) => void this.refresh(bad('Nothing was restored', [why])),
    });
  }

  sighted(sighting: Sighting, loft: Loft): void {
    const { meaning } = sighting;
    if (meaning.kind === 'component') void this.reprints.find(meaning.serial);
    else this.restoring.sighted(sighting, loft);
  }

  current(): RecordsView {
    const { restoring, copies, reprints } = this;
    return { ...this.view, restoring: restoring.view(), offered: copies.offered(), reprint: reprints.view() };
  }

  trouble(): string | null {
    return this.view.warning ?? this.copies.trouble();
  }

  /** Looks at everything anew; what came of the last act stays only when asked. */
  async refresh(outcome: RecordsOutcome | null = null): Promise<void> {
    const { store, signer, backup } = this.parts;
    const [head, own, folder, persistence, room] = await Promise.all([
      store.head(),
      signer.own(),
      backup.folder(),
      store.persistence(),
      askRoom(),
    ]);
    const stands = head.ok ? await this.parts.archive.stands() : null;
    const lost = await signer.lost();
    const rolledBack = stands === null || stands.ok || stands.reason === 'no-storage' ? null : stands.detail;
    const used = room === null ? '' : ` ${megabytes(room.usedBytes)} of ${megabytes(room.quotaBytes)} are used.`;
    this.view = {
      facts: head.ok ? head.value.size : 0,
      root: head.ok ? head.value.root : null,
      key: own.ok ? own.value : null,
      empty: head.ok ? head.value.size === 0 : head.reason === 'corrupt',
      backup: this.copies.say(folder),
      canChooseFolder: backup.canChoose,
      keeping: [
        'Records are kept for ever; nothing here deletes one. The law asks for two years (14 CFR 65.131(b)).',
        `${PERSISTENCE[persistence]}${used}`,
        ...(lost.ok ? sayLost(lost.value) : []),
      ],
      warning: head.ok ? (rolledBack ?? roomWarning(room)) : head.detail,
      outcome,
    };
    this.onChange();
  }

  async exportAll(): Promise<void> {
    await this.doing('Exporting', async () => {
      const text = await this.parts.archive.exportText(null);
      if (!text.ok) return bad('Nothing was exported', [text.detail]);
      const name = `stowcall-${this.parts.now().slice(0, 10)}.jsonl`;
      this.parts.save(name, text.value);
      return good('Exported', [`${name} lies with the downloads. Check it here, or with any copy of the verifier.`]);
    });
  }

  async verify(file: GivenFile): Promise<void> {
    await this.doing(`Checking ${file.name}`, async () => {
      const bytes = await bytesOf(file);
      if (bytes === null) return bad('Not checked', [`${file.name} is too large to be an export.`]);
      const { sound, findings, facts, packs, signers } = await this.parts.archive.verify(bytes);
      if (!sound) return bad(`${file.name} is not sound`, linesOf(findings));
      const whose = sayWhose(signers, this.view.key);
      return good(`${file.name} is sound`, [`${packs} packs, ${facts} facts. Nothing is missing or altered.`, whose]);
    });
  }

  async restore(file: GivenFile): Promise<void> {
    await this.doing(`Checking ${file.name}`, async () => {
      const bytes = await bytesOf(file);
      if (bytes === null) return bad('Not restored', [`${file.name} is too large to be an export.`]);
      const what = await this.parts.archive.check(bytes);
      if (!what.ok) return bad('Nothing was restored', [what.detail]);
      this.restoring.offer(what.value);
      return good(`${file.name} is sound`, ['Nothing has been restored yet.']);
    });
  }

  async restoreOffered(): Promise<void> {
    const name = this.copies.offered();
    if (name === null) return;
    const file = await this.parts.backup.read(name);
    if (!file.ok) return this.refresh(bad('Nothing was restored', [file.detail]));
    await this.restore(file.value);
  }

  private async putBack(what: Restorable, by: RestoredBy): Promise<void> {
    await this.doing('Restoring', async () => {
      const head = await this.parts.archive.restore(what, by);
      if (!head.ok) return bad('Nothing was restored', [head.detail]);
      this.copies.restored();
      const { size, root } = what.file.head;
      return good('Restored', [
        `${size} facts, with the same root as before: ${root}. Who restored them is a fact behind them.`,
        'Reload this page to go on.',
      ]);
    });
  }

  async chooseFolder(): Promise<void> {
    const chosen = await this.parts.backup.choose();
    if (!chosen) return this.refresh(bad('No folder was chosen', ['Nothing has changed.']));
    await this.doing('Making a copy', () => this.copies.make());
  }

  async card(text: string): Promise<void> {
    await this.doing('Checking the card', async () => {
      const { genuine, differs, says } = await this.parts.archive.verifyCard(text);
      const lines = says.map(({ name, value }) => `${name}: ${value}`);
      if (genuine) return good('This card is genuine. Compare it with these lines', lines);
      return bad('This card is not genuine', [...differs, ...lines]);
    });
  }

  private async proofOf(signed: Fact): Promise<ProofState> {
    const text = await this.parts.archive.sealRecord(signed);
    if (!text.ok) return { state: 'failed', why: text.detail };
    return drawCardCode(text.value).then(
      (proof): ProofState => ({ state: 'made', proof }),
      (error: unknown): ProofState => ({ state: 'failed', why: String(error) }),
    );
  }

  async sealed(signed: Fact): Promise<ProofState> {
    const made = await this.proofOf(signed);
    await this.copies.make();
    await this.refresh(this.view.outcome);
    return made;
  }

  async closed(): Promise<void> {
    await this.copies.make();
    await this.refresh(this.view.outcome);
  }

  private async doing(heading: string, work: () => Promise<RecordsOutcome>): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    this.view = { ...this.view, outcome: { tone: 'busy', heading, lines: [] } };
    this.onChange();
    const outcome = await work().catch((error: unknown) => bad('That did not work', [String(error)]));
    this.busy = false;
    await this.refresh(outcome);
  }
}

async function bytesOf(file: GivenFile): Promise<Uint8Array | null> {
  return file.size > LARGEST_BYTES ? null : new Uint8Array(await file.arrayBuffer());
}
