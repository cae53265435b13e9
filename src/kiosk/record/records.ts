/** The records page at run time: export, check, restore and copies; and the proof of each record that is signed. */
import type { Fact } from '../../domain/fact';
import type { Instant } from '../../domain/instant';
import type { Loft } from '../../domain/loft';
import type { Sighting } from '../../domain/sighting';
import type { GivenFile, RecordsOutcome, RecordsView } from '../../screens/contract/records-view';
import type { ProofState } from '../../screens/contract/proof-view';
import type { Persistence, Store } from '../../record/store/store';
import type { Sealer } from '../../record/seal/sealer';
import type { Signer } from '../../record/verify/bytes/checkpoints';
import type { Archive } from './archive';
import type { Backup } from './backup';
import type { Head } from '../../record/ledger';
import type { Restorable, RestoredBy } from './restore';
import { Reprints } from './reprints';
import { Restoring } from './restoring';
import { copyName, isSameJournal, sizeOfCopy } from './copy-name';
import { drawCardCode } from './card-code';
import { askRoom, megabytes, roomWarning } from './storage-room';

export interface RecordsParts {
  readonly store: Store;
  readonly sealer: Sealer;
  readonly archive: Archive;
  readonly backup: Backup;
  /** Name of this table, for the names of copies. */
  readonly table: string;
  readonly now: () => Instant;
  /** Gives a file to the person, as a download. */
  readonly save: (name: string, text: string) => void;
  /** Absent where nobody has a PIN. */
  readonly pinFits?: (pin: string, stored: string) => Promise<boolean>;
}

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
/** Older copies of the same journal that stay beside the newest one. */
const COPIES_KEPT = 2;
/** Findings beyond these are counted. */
const SHOWN = 8;

const PERSISTENCE: Readonly<Record<Persistence, string>> = {
  granted: 'The browser has promised never to clear them by itself.',
  refused: 'The browser has not promised to keep them: let copies be made.',
  unknown: 'This browser does not say whether it keeps them: let copies be made.',
};

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
  /** A copy in the folder from which this empty kiosk can go on. */
  private offered: string | null = null;
  private lastCopy: string | null = null;
  private copyTrouble: string | null = null;
  private busy = false;

  constructor(
    private readonly parts: RecordsParts,
    private readonly onChange: () => void,
  ) {
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
    const { restoring, offered, reprints } = this;
    return { ...this.view, restoring: restoring.view(), offered, reprint: reprints.view() };
  }

  trouble(): string | null {
    return this.view.warning ?? this.copyTrouble;
  }

  /** Looks at everything anew; what came of the last act stays only when asked. */
  async refresh(outcome: RecordsOutcome | null = null): Promise<void> {
    const { store, sealer, backup } = this.parts;
    const [head, own, folder, persistence, room] = await Promise.all([
      store.head(),
      sealer.own(),
      backup.folder(),
      store.persistence(),
      askRoom(),
    ]);
    const stands = head.ok ? await this.parts.archive.stands() : null;
    const lost = await sealer.lost();
    const rolledBack = stands === null || stands.ok || stands.reason === 'no-storage' ? null : stands.detail;
    const used = room === null ? '' : ` ${megabytes(room.usedBytes)} of ${megabytes(room.quotaBytes)} are used.`;
    this.view = {
      facts: head.ok ? head.value.size : 0,
      root: head.ok ? head.value.root : null,
      key: own.ok ? own.value : null,
      empty: head.ok ? head.value.size === 0 : head.reason === 'corrupt',
      backup: this.sayBackup(folder),
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
    const name = this.offered;
    if (name === null) return;
    const file = await this.parts.backup.read(name);
    if (!file.ok) return this.refresh(bad('Nothing was restored', [file.detail]));
    await this.restore(file.value);
  }

  private async putBack(what: Restorable, by: RestoredBy): Promise<void> {
    await this.doing('Restoring', async () => {
      const head = await this.parts.archive.restore(what, by);
      if (!head.ok) return bad('Nothing was restored', [head.detail]);
      this.offered = null;
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
    await this.doing('Making a copy', () => this.copy());
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
    await this.copy();
    await this.refresh(this.view.outcome);
    return made;
  }

  async closed(): Promise<void> {
    await this.copy();
    await this.refresh(this.view.outcome);
  }

  private async copy(): Promise<RecordsOutcome> {
    const { store, sealer, archive, backup, table } = this.parts;
    const [head, own] = [await store.head(), await sealer.own()];
    const copy = { table, key: own.ok ? own.value : null, size: head.ok ? head.value.size : 0 };
    const there = await backup.look();
    if (!there.ok) return this.notCopied(there.detail);
    const copies = there.value.filter((name) => sizeOfCopy(name) !== null);
    this.offered = null;
    if (copy.size === 0 && copies.length > 0) {
      this.offered = copies.toSorted((a, b) => (sizeOfCopy(a) ?? 0) - (sizeOfCopy(b) ?? 0)).at(-1) ?? null;
      return bad('This kiosk is empty, and that folder is not', [
        `It holds ${copies.join(', ')}. Nothing was written.`,
        'To go on with those records, restore the copy that holds most, or choose another one with "Restore from a file".',
      ]);
    }
    const more = copies.find((name) => isSameJournal(name, copy) && (sizeOfCopy(name) ?? 0) > copy.size);
    if (more !== undefined) {
      return this.notCopied(
        `${more} in that folder holds more than this journal, so nothing was written. Call the lead.`,
      );
    }
    const text = await archive.exportText(null);
    if (!text.ok) return this.notCopied(text.detail);
    const now = this.parts.now();
    const made = `Last copy at ${now.slice(0, 16).replace('T', ' ')}.`;
    const file = copyName(copy);
    this.copyTrouble = null;
    if (!this.parts.backup.canChoose) {
      // No folders in this browser: the copy goes where its downloads go.
      this.parts.save(file, text.value);
      this.lastCopy = made;
      return good('A copy was made', [`${file} lies with the downloads.`]);
    }
    const written = await this.parts.backup.write(file, text.value);
    if (!written.ok) return this.notCopied(written.detail);
    this.lastCopy = written.value === null ? null : made;
    if (written.value === null) return bad('No copy was made', ['No folder is chosen.']);
    const older = copies.filter((name) => isSameJournal(name, copy) && name !== file);
    await backup.tidy(older.sort((a, b) => (sizeOfCopy(a) ?? 0) - (sizeOfCopy(b) ?? 0)).slice(0, -COPIES_KEPT));
    return good('A copy was made', [written.value]);
  }

  private notCopied(why: string): RecordsOutcome {
    this.copyTrouble = why;
    this.lastCopy = why;
    return bad('No copy was made', [why]);
  }

  private sayBackup(folder: string | null): string {
    const last = this.lastCopy === null ? '' : ` ${this.lastCopy}`;
    if (folder !== null) return `After each signed record a copy goes to the folder ${folder}.${last}`;
    return this.parts.backup.canChoose
      ? 'No folder for copies is chosen.'
      : `After each signed record a copy goes to the downloads, since this browser knows no folders.${last}`;
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

/**
 * Who vouches for a sound file. Only a signature that this kiosk's own key verified makes it this kiosk's; any other
 * key is one that the file itself brought along, and says nothing of whose it is.
 */
function sayWhose(signers: readonly Signer[], own: string | null): string {
  const mine = signers.find(({ key }) => key === own);
  const last = signers.find(({ head }) => head)?.key ?? 'no key';
  if (mine?.head === true) return 'All of it is signed by this kiosk: its own key verified the last checkpoint.';
  const foreign = `by a key that the file itself names: whose it is is not known here. Compare it: ${last}`;
  if (mine === undefined) return `It is signed ${foreign}`;
  return `This kiosk’s own key verified earlier checkpoints, but the last one is signed ${foreign}`;
}

/** Seals of facts that this kiosk does not have any more are named for as long as it lives. */
function sayLost(lost: readonly Head[]): readonly string[] {
  const newest = lost.toSorted((a, b) => a.size - b.size).at(-1);
  if (newest === undefined) return [];
  return [
    `An older copy was restored here: of what was sealed up to fact ${newest.size} (root ${newest.root}) a part is lost. ` +
      `Its ${lost.length} seals are kept.`,
  ];
}

async function bytesOf(file: GivenFile): Promise<Uint8Array | null> {
  return file.size > LARGEST_BYTES ? null : new Uint8Array(await file.arrayBuffer());
}

function good(heading: string, lines: readonly string[]): RecordsOutcome {
  return { tone: 'good', heading, lines };
}

function bad(heading: string, lines: readonly string[]): RecordsOutcome {
  return { tone: 'bad', heading, lines };
}

function linesOf(findings: readonly { line: number | null; what: string; detail: string }[]): readonly string[] {
  const lines = findings
    .slice(0, SHOWN)
    .map(({ line, detail }) => (line === null ? detail : `Line ${String(line)}: ${detail}`));
  const more = findings.length - SHOWN;
  return more > 0 ? [...lines, `And ${String(more)} more findings.`] : lines;
}
