/** What every mode finds at the table: devices, files, journal, and the ways to another mode. */
import type { Head } from '../../record/ledger';
import type { CameraTurn } from '../devices/camera-turn';
import type { Devices } from '../devices/devices';
import type { Voices } from '../enrol/voices';
import type { LoftWatch } from '../loft/loft-watch';
import type { KioskParts } from '../parts';
import type { Moment } from '../record/circumstances';
import type { RecordsPage } from '../record/records';
import type { JournalBook } from '../tags/journal-book';
import type { Mode } from './mode';

/** Where the journal stands for this page. A mode that stores facts keeps its own and leaves it here at its end. */
export interface JournalPosition {
  /** Null: the storage does not work. */
  head: Head | null;
  /** When anything was last stored; null for never in this page. */
  known: Moment | null;
}

export interface Table {
  readonly parts: KioskParts;
  readonly files: LoftWatch;
  readonly devices: Devices;
  /** Null where there is no choice of cameras. */
  readonly cameras: CameraTurn | null;
  /** Null where no voice can be kept. */
  readonly voices: Voices | null;
  readonly book: JournalBook;
  readonly journal: JournalPosition;
  /** Null where there is no real store behind the ledger. */
  records(): RecordsPage | null;
  /** A pack or the page of tags is being opened: a second badge meanwhile must not open another. */
  isEntering: boolean;
  /** What the kiosk does now. */
  now(): Mode;
  /** Whether something else can be begun: the start screen is shown, and nothing is being opened. */
  isFree(): boolean;
  /** Draws what is true now, and says it if it is new. */
  refresh(): void;
  /** From now on the kiosk does this. */
  enter(mode: Mode): void;
  /** Back to the start screen, which says why; null for no reason. */
  toStart(why: string | null): void;
  /** Says nothing more, and listens to nothing until something is said again. */
  hush(): void;
  /** Takes up a new version of the page if one waits and no pack is open; whether it does. */
  renew(): boolean;
}
