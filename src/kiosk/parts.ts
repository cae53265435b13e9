/** The parts that the composition root joins: every one a port, so that the kiosk runs the same on fakes. */
import type { Instant } from '../domain/instant';
import type { ScannerSettings } from '../domain/scanning';
import type { LoftSettings } from '../domain/loft';
import type { Paper } from '../domain/log-record';
import type { Result } from '../domain/result';
import type { Licence } from '../screens/contract/licences-view';
import type { LedgerPort } from '../record/ledger';
import type { SightingPort } from '../scan/sighting';
import type { EnrollingPort } from '../voice/enrolling';
import type { HearingPort } from '../voice/hearing';
import type { SpeakingPort } from '../voice/speaking';
import type { VoiceSampleStore } from '../voice/voice-sample-store';
import type { PhraseToRead } from './enrol/phrases-to-read';
import type { LoadedLoft } from './loft/loading';
import type { NewVersion } from './new-version';
import type { MeasureDelay } from './devices/loudspeaker';
import type { CameraChooser } from './devices/camera-turn';
import type { RecordsPage } from './record/records';

export interface VoiceParts {
  readonly ear: EnrollingPort;
  readonly sampleStore: VoiceSampleStore;
  /** The lines that are read aloud. */
  readonly phrases: readonly PhraseToRead[];
}

export interface KioskParts {
  readonly ear: HearingPort;
  readonly mouth: SpeakingPort;
  readonly camera: SightingPort;
  /** The cameras to choose from; absent where there is no choice. */
  readonly cameras?: CameraChooser;
  readonly wedge: SightingPort & { configure?(settings: ScannerSettings): void };
  readonly ledger: LedgerPort;
  readonly now: () => Instant;
  /** The offset that the zone of this computer has at a moment; absent for one that never changes. */
  readonly offsetAt?: (at: Instant) => string;
  /** Milliseconds that only go forward, for the touch guard. */
  readonly nowMs: () => number;
  readonly newId: () => string;
  /** Called again and again: files that have not changed give the very same object. */
  readonly loadLoft: () => Promise<Result<LoadedLoft, 'no-loft'>>;
  readonly loadLicences: () => Promise<readonly Licence[]>;
  readonly print: (paper: Paper) => void;
  /** Whether this is the PIN of that stored form; absent where no PIN can be compared, so that none ever fits. */
  readonly pinFits?: (pin: string, stored: string) => Promise<boolean>;
  /** Export, checking, copies and proofs; absent where there is no real store behind the ledger. */
  readonly records?: (settings: LoftSettings, onChange: () => void) => RecordsPage;
  /** Learning and knowing voices; absent where none can be kept. */
  readonly voices?: VoiceParts;
  /** How late the loudspeaker is; absent where it is never late, as in tests without sound. */
  readonly measureDelay?: MeasureDelay;
  /** Absent where the page is not stored by a service worker. */
  readonly versions?: NewVersion;
  /** A point in time for the benches; nothing in the kiosk reads it back. */
  readonly mark: (name: string) => void;
}
