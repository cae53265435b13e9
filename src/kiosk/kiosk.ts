/**
 * The kiosk at run time: one table, and one mode at a time. It starts the devices, hands on to the mode whatever is said,
 * pressed and scanned, and draws and says what the mode makes of it.
 */
import type { Channel, Command } from '../domain/command';
import type { Sighting } from '../domain/sighting';
import type { Acts } from '../screens/contract/acts';
import type { StatusBarView } from '../screens/contract/status-bar-view';
import { looksLikePaper } from '../record/verify/bytes/read-paper';
import type { RawReading } from '../scan/sighting';
import { understandPayload } from '../scan/symbology/understand-payload';
import { cameraTurnOf, type CameraTurn } from './devices/camera-turn';
import { createDevices, type Devices } from './devices/devices';
import { withRemark } from './devices/self-check';
import { createVoices, type Voices } from './enrol/voices';
import type { Kiosk } from './kiosk-face';
import { LoftWatch } from './loft/loft-watch';
import { teachVoice } from './modes/enrol-mode';
import { showLicences } from './modes/licences-mode';
import type { Mode } from './modes/mode';
import { openPack } from './modes/pack-mode';
import { showRecords } from './modes/records-mode';
import { rehearse } from './modes/rehearsal-mode';
import { standstill } from './modes/standstill';
import { StartMode } from './modes/start-mode';
import type { Table } from './modes/table';
import { showTags } from './modes/tags-mode';
import { sayLedgerFailure } from './pack/pack-runner';
import type { KioskParts } from './parts';
import { Presenter } from './presenter';
import { recordActs } from './record/record-acts';
import type { RecordsPage } from './record/records';
import { sightingOf } from './sighting-of';
import { FIRST_STATUS_BAR, statusBarOf } from './status-bar';
import { Talk } from './talk';
import { createJournalBook } from './tags/journal-book';
import { watchable } from './watchable';

/** So that a revocation reaches a pack at which nobody scans anything. */
const FILES_EVERY_MS = 5_000;

/** Joins the parts; nothing happens before `start`. */
export function createKiosk(parts: KioskParts): Kiosk {
  return new RunningKiosk(parts);
}

class RunningKiosk implements Kiosk {
  readonly view: Kiosk['view'];
  readonly statusBar = watchable<StatusBarView>(FIRST_STATUS_BAR);
  readonly level = watchable(0);
  /** Each way into a mode is one line. */
  readonly acts: Acts = {
    command: (command, channel) => this.command(command, channel),
    rehearse: (procedure) => rehearse(this.table, procedure),
    showLicences: () => void showLicences(this.table),
    teachVoice: () => teachVoice(this.table),
    showTags: () => void showTags(this.table),
    records: recordActs(
      () => this.records,
      () => void showRecords(this.table),
    ),
    leave: () => this.mode.leave(),
    retry: () => void this.recheck(),
    useNextCamera: () => void this.cameras?.next(),
    print: (paper) => this.parts.print(paper),
    pin: { enter: (digits) => void this.presenter.pin()?.enter(digits), cancel: () => this.presenter.pin()?.cancel() },
  };

  private mode: Mode = standstill('loading');
  private readonly table: Table;
  private readonly files: LoftWatch;
  private readonly devices: Devices;
  private readonly presenter: Presenter;
  private readonly talk: Talk;
  private readonly cameras: CameraTurn | null;
  private readonly voices: Voices | null;
  private records: RecordsPage | null = null;
  /** Counts arrivals at the start screen. */
  private starts = 0;

  constructor(private readonly parts: KioskParts) {
    this.files = new LoftWatch({
      load: parts.loadLoft,
      onFiles: (loft) => this.mode.files?.(loft),
      onChange: () => this.refresh(),
    });
    this.devices = createDevices(parts, (text) => this.talk.interject(text));
    this.cameras = cameraTurnOf(parts.cameras, () => this.devices.restartCamera().then(() => this.refresh()));
    this.voices = parts.voices === undefined ? null : createVoices(parts.voices);
    this.talk = this.createTalk();
    this.presenter = new Presenter({
      parts,
      rate: () => this.files.settings()?.speakingRate ?? 1,
      say: (prompt, opening, rate) => this.talk.present(prompt, opening, rate),
    });
    this.view = this.presenter.view;
    this.table = this.layTable();
  }

  private createTalk(): Talk {
    const { parts, files, devices, voices } = this;
    return new Talk({
      parts,
      loudspeaker: () => files.settings()?.loudspeaker ?? 'open',
      onMeasured: (text) => devices.checks.set(withRemark(devices.checks.get(), 'voice', text)),
      onCommand: (command) => this.command(command, 'voice'),
      onState: () => this.updateStatusBar(),
      ...(voices === null ? {} : { sample: (words) => voices.sample(words) }),
      onSample: (sample) => this.mode.sampled?.(sample),
    });
  }

  private layTable(): Table {
    const { parts, files, devices, cameras, voices } = this;
    return {
      parts,
      files,
      devices,
      cameras,
      voices,
      book: createJournalBook(parts.ledger),
      journal: { head: null, known: null },
      records: () => this.records,
      isEntering: false,
      now: () => this.mode,
      isFree: () => this.mode.screen === 'start' && !this.table.isEntering,
      refresh: () => this.refresh(),
      enter: (mode) => {
        this.mode = mode;
        this.refresh();
      },
      toStart: (why) => this.toStart(why),
      hush: () => this.talk.hush(),
      renew: () => this.renew(),
    };
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
    const loaded = await this.files.begin();
    if (!loaded.ok) return this.fault('Nothing can be packed', `${loaded.detail} So nothing can be packed.`);
    const { loft } = loaded.value;
    if (loft.settings.scanner !== undefined) wedge.configure?.(loft.settings.scanner);
    this.records = this.parts.records?.(loft.settings, () => this.refresh()) ?? null;
    setInterval(() => void this.readFiles(), FILES_EVERY_MS);
    await this.openLedger();
    this.voices?.tidy(loft);
    const open = await ledger.openPacks();
    const last = open.ok ? open.value.at(-1) : undefined;
    if (last === undefined) this.toStart(null);
    else await openPack(this.table, last, null);
    void this.records?.refresh();
    await this.prepareDevices();
  }

  async recheck(): Promise<void> {
    if (this.mode.screen === 'loading' || this.mode.screen === 'fault') return;
    if (this.table.journal.head === null) await this.openLedger();
    await this.prepareDevices();
  }

  async devicesChanged(): Promise<void> {
    this.talk.forgetLoudspeaker();
    await this.recheck();
  }

  private async prepareDevices(): Promise<void> {
    await this.devices.prepare();
    this.parts.mark('ready');
    this.refresh();
    await this.talk.prepare();
    this.refresh();
    // Nobody waits for the list of cameras; their names come with the permission to use one.
    void this.cameras?.look().then(() => this.refresh());
  }

  private async openLedger(): Promise<void> {
    const opened = await this.parts.ledger.open();
    this.table.journal.head = opened.ok ? opened.value : null;
    const failure = opened.ok ? null : `${sayLedgerFailure(opened.reason)} Until then nothing can be packed.`;
    this.devices.report('storage', failure);
  }

  private readFiles(): Promise<void> {
    return this.mode.files === undefined ? Promise.resolve() : this.files.read();
  }

  private updateStatusBar(): void {
    this.statusBar.set(statusBarOf(this.devices.checks.get(), this.talk.state()));
  }

  /** Draws what is true now, and says it if it is new. */
  private refresh(): void {
    const scene = this.mode.scene();
    this.voices?.follow(scene?.voices ?? []);
    this.presenter.present(scene);
  }

  private toStart(notice: string | null): void {
    this.starts += 1;
    this.table.enter(new StartMode(this.table, { notice, number: this.starts }));
    if (!this.renew()) this.parts.versions?.look();
  }

  /** Takes up a new version, and only where no pack is open: a pack ends with the version that it was begun with. */
  private renew(): boolean {
    const { versions } = this.parts;
    if (versions === undefined || !versions.isWaiting() || !this.table.isFree()) return false;
    // No badge is taken any more: the pack that it opens would be the new version's.
    this.mode = standstill('loading');
    this.talk.hush();
    this.view.set({ screen: 'loading', text: 'Starting the new version of the kiosk' });
    void versions.takeUp().then(() => this.toStart(null));
    return true;
  }

  private fault(heading: string, text: string): void {
    this.mode = standstill('fault');
    this.view.set({ screen: 'fault', heading, text });
  }

  private command(command: Command, channel: Channel): void {
    if (this.presenter.isMeant(command.name, channel)) this.mode.command(command, channel);
  }

  private read(raw: RawReading): void {
    if (looksLikePaper(raw.payload)) return this.mode.paper?.(raw.payload);
    const code39Check = this.files.settings()?.code39Check ?? [];
    const meaning = understandPayload(raw, { code39Check });
    const sighting = sightingOf(raw, meaning, { id: this.parts.newId(), at: this.parts.now() });
    this.parts.mark('sighted');
    // A badge is judged by the people file of this moment, and a broken reading of it must not lose the badge.
    if (meaning.kind === 'badge') void this.readFiles().then(() => this.sighted(sighting));
    else this.sighted(sighting);
  }

  private sighted(sighting: Sighting): void {
    const { meaning } = sighting;
    if (meaning.kind === 'command' && this.mode.screen !== 'pack') this.command(meaning.command, 'card');
    else this.mode.sighted(sighting);
  }
}
