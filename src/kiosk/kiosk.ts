/** The kiosk at run time: one table, one pack at a time, every device behind its port. */
import type { Channel, Command } from '../domain/command';
import type { Fact } from '../domain/fact';
import type { Loft } from '../domain/loft';
import type { Result } from '../domain/result';
import type { Sighting } from '../domain/sighting';
import type { Acts } from '../screens/contract/acts';
import type { AppView } from '../screens/contract/app-view';
import type { ProofState } from '../screens/contract/proof-view';
import type { RefusedFile } from '../screens/contract/start-view';
import type { StatusBarView } from '../screens/contract/status-bar-view';
import { mayOpenPack } from '../packing/badge/open-pack';
import type { Head } from '../record/ledger';
import { looksLikePaper } from '../record/verify/bytes/read-paper';
import type { RawReading } from '../scan/sighting';
import { understandPayload } from '../scan/symbology/understand-payload';
import { cameraTurnOf, type CameraTurn } from './camera-turn';
import { createConversation, type Conversation, type ConversationState } from './conversation';
import { createDevices, type Devices } from './devices';
import { createVoices, type Voices } from './enrol/voices';
import { enterPack } from './enter-pack';
import { sayLedgerFailure, type PackRunner } from './pack-runner';
import { delayOf, NOT_MEASURED, type LoudspeakerDelay } from './loudspeaker';
import type { LoadedLoft } from './loading';
import type { Kiosk } from './kiosk-face';
import type { KioskParts } from './parts';
import { withRemark } from './self-check';
import type { PinGate } from './pin/pin-gate';
import type { Moment } from './record/circumstances';
import { recordActs } from './record/record-acts';
import type { RecordsPage } from './record/records';
import { startRehearsal } from './rehearsal-runner';
import { sceneOf, startScene, type Mode, type Scene } from './scene';
import { sightingOf } from './sighting-of';
import { FIRST_STATUS_BAR, statusBarOf } from './status-bar';
import { createJournalBook, type JournalBook } from './tags/journal-book';
import { openTagsPage } from './tags/tags-page';
import { watchable } from './watchable';

/** So that a revocation reaches a pack at which nobody scans anything. */
const FILES_EVERY_MS = 5_000;

/** A second touch of the same control within this time was meant for the step before. */
const TOUCH_GUARD_MS = 500;

/** Joins the parts; nothing happens before `start`. */
export function createKiosk(parts: KioskParts): Kiosk {
  return new RunningKiosk(parts);
}

class RunningKiosk implements Kiosk {
  readonly view = watchable<AppView>({ screen: 'loading', text: 'Starting' });
  readonly statusBar = watchable<StatusBarView>(FIRST_STATUS_BAR);
  readonly level = watchable(0);
  readonly acts: Acts = {
    command: (command, channel) => this.command(command, channel),
    rehearse: (procedure) => this.rehearse(procedure),
    showLicences: () => void this.showLicences(),
    leave: () => {
      if (this.mode.in === 'records' && this.aside !== null) {
        this.mode = this.aside;
        this.refresh();
      } else if (this.mode.in !== 'pack' || this.mode.runner.view().ended) this.toStart(null);
    },
    retry: () => void this.recheck(),
    useNextCamera: () => void this.cameras?.next(),
    print: (paper) => this.parts.print(paper),
    teachVoice: () => this.teachVoice(),
    showTags: () => void this.showTags(),
    pin: { enter: (digits) => void this.pinGate()?.enter(digits), cancel: () => this.pinGate()?.cancel() },
    records: recordActs(
      () => this.records,
      () => void this.showRecords(),
    ),
  };

  private readonly devices: Devices;
  private readonly conversation: Conversation;
  private readonly cameras: CameraTurn | null;
  private readonly voices: Voices | null;
  private mode: Mode = { in: 'loading' };
  private loft: Loft | null = null;
  private records: RecordsPage | null = null;
  /** Of the record that was just signed. */
  private proof: ProofState | null = null;
  /** The pack that is open behind the records page; null where none is. */
  private aside: Extract<Mode, { in: 'pack' }> | null = null;
  private pin: PinGate | null = null;
  /** Why the files as they are now do not count; the last good ones do. */
  private filesTrouble: string | null = null;
  private readingFiles: Promise<void> | null = null;
  private refusedFiles: readonly RefusedFile[] = [];
  private head: Head | null = null;
  /** When a pack last stored anything. */
  private known: Moment | null = null;
  private notice: string | null = null;
  /** Counts arrivals at the start screen, so that each is spoken. */
  private starts = 0;
  /** A pack is being opened: a second badge meanwhile must not open another. */
  private entering = false;
  private devicesReady = false;
  /** How late the loudspeaker is; null before it was measured. */
  private delay: LoudspeakerDelay | null = null;
  private measuring: Promise<void> | null = null;
  private readonly book: JournalBook;
  private readonly onChange = (): void => this.refresh();
  private readonly leave = (): void => this.toStart(null);
  private keyShown = '';
  private shownAtMs = Number.NEGATIVE_INFINITY;
  private talk: ConversationState = { speaking: false, listening: false, heard: null };

  constructor(private readonly parts: KioskParts) {
    this.book = createJournalBook(parts.ledger);
    this.devices = createDevices(parts, (text) => this.conversation.interject(text));
    this.cameras = cameraTurnOf(parts.cameras, () => this.devices.restartCamera().then(() => this.refresh()));
    const voices = (this.voices = parts.voices === undefined ? null : createVoices(parts.voices));
    this.conversation = createConversation({
      ear: parts.ear,
      mouth: parts.mouth,
      heardOut: () => this.heardOut(),
      onCommand: ({ command }) => {
        parts.mark('heard');
        this.command(command, 'voice');
      },
      onState: (state) => {
        if (state.listening && !this.talk.listening) parts.mark('listening');
        this.talk = state;
        this.updateStatusBar();
      },
      ...(voices === null ? {} : { sample: (words) => voices.sample(words) }),
      onSample: (sample) => this.mode.in === 'enrol' && this.mode.page.sampled(sample),
    });
  }

  async start(): Promise<void> {
    const { camera, wedge, ear, ledger } = this.parts;
    camera.onReading((raw) => this.read(raw));
    wedge.onReading((raw) => this.read(raw));
    ear.onLevel((level) => this.level.set(level));
    this.devices.checks.subscribe(() => {
      this.updateStatusBar();
      this.refresh();
    });
    this.parts.versions?.onWaiting(() => this.renew());
    const loaded = await this.parts.loadLoft();
    if (!loaded.ok) return this.fault('Nothing can be packed', `${loaded.detail} So nothing can be packed.`);
    this.loft = loaded.value.loft;
    const { scanner } = this.loft.settings;
    if (scanner !== undefined) this.parts.wedge.configure?.(scanner);
    this.refusedFiles = loaded.value.refusedFiles;
    this.records = this.parts.records?.(this.loft.settings, () => this.refresh()) ?? null;
    setInterval(() => void this.readFiles(), FILES_EVERY_MS);
    await this.openLedger();
    this.voices?.tidy(this.loft);
    const open = await ledger.openPacks();
    const last = open.ok ? open.value.at(-1) : undefined;
    if (last === undefined) this.toStart(null);
    else await this.enterPack(last, null);
    void this.records?.refresh();
    await this.prepareDevices();
  }

  /** Reads the loft's files anew. Broken ones replace nothing: the last good ones go on counting, and the screen says so. */
  private readFiles(): Promise<void> {
    if (!['pack', 'start', 'tags'].includes(this.mode.in)) return Promise.resolve();
    this.readingFiles ??= this.parts
      .loadLoft()
      .then((loaded) => this.takeFiles(loaded))
      .finally(() => {
        this.readingFiles = null;
      });
    return this.readingFiles;
  }

  private takeFiles(loaded: Result<LoadedLoft>): void {
    const trouble = loaded.ok ? null : `${loaded.detail} Until that is put right, the files as they were before count.`;
    const changed = loaded.ok && loaded.value.loft !== this.loft;
    if (loaded.ok && changed) {
      this.loft = loaded.value.loft;
      this.refusedFiles = loaded.value.refusedFiles;
      if (this.mode.in === 'pack') this.mode.runner.files(this.book.over(this.loft));
      if (this.mode.in === 'tags') this.mode.page.files(this.loft);
    }
    if (!changed && trouble === this.filesTrouble) return;
    this.filesTrouble = trouble;
    this.refresh();
  }

  async recheck(): Promise<void> {
    if (this.mode.in === 'loading' || this.mode.in === 'fault') return;
    if (this.head === null) await this.openLedger();
    await this.prepareDevices();
  }

  async devicesChanged(): Promise<void> {
    this.delay = null;
    await this.recheck();
  }

  private async prepareDevices(): Promise<void> {
    await this.devices.prepare();
    this.parts.mark('ready');
    this.refresh();
    if (this.delay === null) await (this.measuring ??= this.measureDelay());
    this.devicesReady = true;
    this.refresh();
    // Nobody waits for the list of cameras; their names come with the permission to use one.
    void this.cameras?.look().then(() => this.refresh());
  }

  /** Touch and scanner work meanwhile; nothing is said and nothing heard until it is known when the ear may open. */
  private async measureDelay(): Promise<void> {
    const { measureDelay } = this.parts;
    if (measureDelay === undefined) {
      this.delay = { guardMs: 0, text: '' };
      this.measuring = null;
      return;
    }
    this.devicesReady = false;
    this.conversation.stop();
    const delay = await delayOf(this.loft?.settings.loudspeaker ?? 'open', measureDelay);
    this.delay = delay;
    this.measuring = null;
    const { checks } = this.devices;
    checks.set(withRemark(checks.get(), 'voice', delay.text));
  }

  private async heardOut(): Promise<void> {
    const { guardMs } = this.delay ?? NOT_MEASURED;
    if (guardMs > 0) await new Promise((resolve) => setTimeout(resolve, guardMs));
  }

  private async openLedger(): Promise<void> {
    const opened = await this.parts.ledger.open();
    this.head = opened.ok ? opened.value : null;
    const failure = opened.ok ? null : `${sayLedgerFailure(opened.reason)} Until then nothing can be packed.`;
    this.devices.report('storage', failure);
  }

  private updateStatusBar(): void {
    this.statusBar.set(statusBarOf(this.devices.checks.get(), this.talk));
  }

  /** Draws what is true now, and says it if it is new. */
  private refresh(): void {
    const { view, prompt, opening, rate } = this.scene();
    this.view.set(view);
    this.voices?.follow(this.mode.in === 'pack' ? this.mode.runner.voices() : []);
    if (prompt === null) return;
    if (prompt.key !== this.keyShown) {
      this.keyShown = prompt.key;
      this.shownAtMs = this.parts.nowMs();
      this.parts.mark('screen');
    }
    if (this.devicesReady) this.conversation.present(prompt, opening, rate);
  }

  private scene(): Scene {
    const { mode, loft, proof, filesTrouble } = this;
    const rate = loft?.settings.speakingRate ?? 1;
    if (mode.in === 'start' && loft !== null) return this.startScene(loft);
    const around = { proof, filesTrouble, pin: this.pinGate()?.view() ?? null };
    const scene = sceneOf(mode, { ...around, records: this.records?.current() ?? null }, rate);
    return scene ?? { view: this.view.get(), prompt: null, opening: null, rate };
  }

  private startScene(loft: Loft): Scene {
    const { refusedFiles, starts } = this;
    const notice = this.notice ?? this.filesTrouble ?? this.records?.trouble() ?? null;
    const checks = this.devices.checks.get();
    const cameras = this.cameras?.view() ?? null;
    return startScene({ loft, notice, starts, checks, refusedFiles, cameras, teachesVoice: this.voices !== null });
  }

  private toStart(why: string | null): void {
    const { mode } = this;
    const open = mode.in === 'pack' ? mode.runner : mode.in === 'tags' ? mode.page : null;
    if (open !== null) [this.known, this.head] = [open.known(), open.head()];
    if (mode.in === 'pack' || mode.in === 'rehearsal') mode.runner.end();
    this.pin = null;
    this.notice = why;
    this.starts += 1;
    this.mode = { in: 'start' };
    this.refresh();
    if (!this.renew()) this.parts.versions?.look();
  }

  /** Takes up a new version, and only where no pack is open: a pack ends with the version that it was begun with. */
  private renew(): boolean {
    const { versions } = this.parts;
    if (versions === undefined || !versions.isWaiting() || this.mode.in !== 'start' || this.entering) return false;
    // No badge is taken any more: the pack that it opens would be the new version's.
    this.mode = { in: 'loading' };
    this.conversation.stop();
    this.view.set({ screen: 'loading', text: 'Starting the new version of the kiosk' });
    void versions.takeUp().then(() => this.toStart(null));
    return true;
  }

  private fault(heading: string, text: string): void {
    this.mode = { in: 'fault' };
    this.view.set({ screen: 'fault', heading, text });
  }

  private async enterPack(pack: string, opening: { packer: string; badgeDigest: string } | null): Promise<void> {
    const { loft, head } = this;
    if (loft === null || this.entering) return;
    if (head === null) return this.toStart('No pack can be opened: the storage does not work.');
    this.entering = true;
    const onSigned = (signed: Fact): void => void this.prove(signed);
    const onClosed = (): void => void this.records?.closed();
    const { parts, book, known, onChange } = this;
    const entered = await enterPack({ parts, book, known, loft, head, onChange, onSigned, onClosed }, pack, opening);
    this.entering = false;
    if (!entered.ok) return this.toStart(entered.detail);
    const { runner, pin, facts } = entered.value;
    this.notice = null;
    this.proof = null;
    this.pin = pin;
    this.mode = { in: 'pack', runner };
    this.refresh();
    // A card that was signed before a break still has to be printed.
    const signed = facts.findLast(({ body }) => body.kind === 'signed');
    if (signed !== undefined) onSigned(signed);
  }

  private rehearse(id: string): void {
    const procedure = this.loft?.procedures.find((one) => one.id === id);
    if (procedure === undefined || this.loft === null || this.mode.in !== 'start' || this.entering) return;
    const runner = startRehearsal(procedure, this.loft.settings.speakingRate, () => this.refresh());
    this.mode = { in: 'rehearsal', runner };
    this.refresh();
  }

  /** Never beside a pack: it is no part of one, and nothing of it becomes a fact. */
  private teachVoice(): void {
    const { loft, voices } = this;
    if (this.mode.in !== 'start' || this.entering || loft === null || voices === null) return;
    const page = voices.enrol(loft, this.onChange, this.leave);
    this.mode = { in: 'enrol', page };
    this.refresh();
  }

  /** Never beside a pack. What is taken off is a fact, so it needs the journal. */
  private async showTags(): Promise<void> {
    const { loft, head } = this;
    // Without storage the start screen says so, and no tag can be taken off.
    if (this.mode.in !== 'start' || this.entering || loft === null || head === null) return;
    this.entering = true;
    const { parts, book, known, onChange, leave } = this;
    const page = await openTagsPage({ parts, book, loft, head, known, onChange, leave });
    this.entering = false;
    if (!page.ok) return this.toStart(`The tags cannot be read. ${sayLedgerFailure(page.reason)}`);
    this.mode = { in: 'tags', page: page.value };
    this.refresh();
  }

  private pinGate(): PinGate | null {
    if (this.mode.in === 'records') return this.records?.restoring.pin ?? null;
    return this.mode.in === 'tags' ? this.mode.page.pin : this.pin;
  }

  private async showLicences(): Promise<void> {
    const licences = await this.parts.loadLicences();
    if (this.mode.in !== 'start' || this.entering) return;
    this.mode = { in: 'licences' };
    this.conversation.stop();
    this.view.set({ screen: 'licences', licences });
  }

  /** Reading, checking and copying change nothing, so no badge is asked for. */
  private async showRecords(): Promise<void> {
    const { mode } = this;
    if ((mode.in !== 'start' && mode.in !== 'pack') || this.entering || this.records === null) return;
    // A pack stays open behind it: nothing on the page can change a record, and the pack goes on where it was.
    this.aside = mode.in === 'pack' ? mode : null;
    this.pin?.cancel();
    this.mode = { in: 'records' };
    this.records.reprints.know(this.loft?.people ?? []);
    this.conversation.stop();
    this.refresh();
    await this.records.refresh();
  }

  private async prove(signed: Fact): Promise<void> {
    if (this.records === null) return;
    const { mode } = this;
    this.proof = { state: 'making' };
    this.refresh();
    const proof = await this.records.sealed(signed);
    // Somebody has gone on meanwhile: it must not be shown with another pack.
    if (this.mode !== mode) return;
    this.proof = proof;
    this.refresh();
  }

  /** A data card held to the camera, from the start screen or the records page. */
  private async readCard(text: string): Promise<void> {
    // While a pack is open a data card lies in view by chance.
    if (this.mode.in === 'start') await this.showRecords();
    if (this.mode.in === 'records') await this.records?.card(text);
  }

  private command(command: Command, channel: Channel): void {
    const { mode } = this;
    // The lines of an enrolment change quickly, and it must be possible to stop at any time.
    const mayHaste = mode.in === 'enrol' && command.name === 'finish';
    if (channel === 'touch' && !mayHaste && this.parts.nowMs() - this.shownAtMs < TOUCH_GUARD_MS) return;
    // While a PIN is being entered nothing else is taken: the pad is in the way of every control.
    if (mode.in === 'pack' && (this.pinGate()?.view() ?? null) !== null) return;
    if (mode.in === 'pack') mode.runner.send({ type: 'COMMAND', command, channel, at: this.parts.now() });
    else if (mode.in === 'rehearsal' && command.name === 'finish') this.toStart(null);
    else if (mode.in === 'rehearsal') mode.runner.send(command);
    else if (mode.in === 'enrol') mode.page.command(command);
    else if (mode.in === 'tags') mode.page.command(command, channel);
  }

  private read(raw: RawReading): void {
    if (looksLikePaper(raw.payload)) return void this.readCard(raw.payload);
    const code39Check = this.loft?.settings.code39Check ?? [];
    const meaning = understandPayload(raw, { code39Check });
    const sighting = sightingOf(raw, meaning, { id: this.parts.newId(), at: this.parts.now() });
    this.parts.mark('sighted');
    // A badge is judged by the people file of this moment, and a broken reading of it must not lose the badge.
    if (meaning.kind === 'badge') void this.readFiles().then(() => this.sighted(sighting));
    else this.sighted(sighting);
  }

  private sighted(sighting: Sighting): void {
    const { meaning } = sighting;
    if (this.mode.in === 'pack') this.sightedInPack(this.mode.runner, sighting);
    else if (meaning.kind === 'command') this.command(meaning.command, 'card');
    else if (this.mode.in === 'start') void this.badgeAtStart(sighting);
    else if (this.mode.in === 'enrol' || this.mode.in === 'tags') this.mode.page.sighted(sighting);
    else if (this.mode.in === 'records' && this.loft !== null) this.records?.sighted(sighting, this.loft);
  }

  /** A badge that needs its PIN waits for it; what else is scanned meanwhile was not meant. */
  private sightedInPack(runner: PackRunner, sighting: Sighting): void {
    const person = runner.pinAskedOf(sighting, sighting.at);
    if (person !== null) this.pin?.ask(person, sighting);
    else if ((this.pin?.view() ?? null) === null) runner.send({ type: 'SIGHTED', sighting, at: this.parts.now() });
  }

  private async badgeAtStart(sighting: Sighting): Promise<void> {
    if (this.loft === null || this.entering || this.renew()) return;
    const person = mayOpenPack(this.loft, sighting, sighting.at);
    if (!person.ok) return this.toStart(person.detail);
    if (sighting.meaning.kind !== 'badge') return;
    await this.beginPack({ packer: person.value.id, badgeDigest: sighting.meaning.badgeDigest });
  }

  /** A new version that is installed until the first fact is stored takes over, and the badge is scanned again. */
  private async beginPack(opening: { packer: string; badgeDigest: string }): Promise<void> {
    const { versions } = this.parts;
    const enter = async (): Promise<void> => {
      this.entering = false;
      await this.enterPack(this.parts.newId(), opening);
      if (this.mode.in === 'pack') await this.mode.runner.begun();
    };
    if (versions === undefined) return enter();
    this.entering = true;
    const entered = await versions.unlessWaiting(enter);
    if (entered) return;
    this.entering = false;
    this.renew();
  }
}
