/** The records page: how the records are kept, and what can be done with them. */
import type { Instant } from '../../domain/instant';
import type { LogRecord } from '../../domain/log-record';
import type { FinalInspection } from './pack-view';
import type { ProofState } from './proof-view';

/** What came of the last thing asked for on the records page. */
export interface RecordsOutcome {
  readonly tone: 'good' | 'bad' | 'busy';
  readonly heading: string;
  readonly lines: readonly string[];
}

export interface RecordsView {
  readonly facts: number;
  /** Short form of the journal's root, for comparing by eye; null when the journal cannot be read. */
  readonly root: string | null;
  /** The key that checkpoints are signed with; null where this browser cannot sign. */
  readonly key: string | null;
  /** Only an empty journal can be restored into. */
  readonly empty: boolean;
  /** Where a copy goes after each signed record, and when the last one went there. */
  readonly backup: string;
  readonly canChooseFolder: boolean;
  /** How long records are kept, whether the browser promised to keep them, and how full the storage is. */
  readonly keeping: readonly string[];
  /** The storage will not last: said long before it is full. */
  readonly warning: string | null;
  readonly outcome: RecordsOutcome | null;
  /** A file that was checked and is to be restored; null or absent for none. */
  readonly restoring?: RestoringView | null;
  /** The copy in the chosen folder from which an empty kiosk can go on. */
  readonly offered?: string | null;
  /** What was found for a serial; null or absent where nothing was looked for. */
  readonly reprint?: ReprintView | null;
}

/** A record of the journal in which a serial stands. */
export interface FoundRecord {
  readonly pack: string;
  readonly packedOn: string;
  readonly assembly: string;
  /** The final hold was released, or there was none. */
  readonly isClosed: boolean;
}

/** A record that is shown once more, marked as a copy. */
export interface RecordCopy {
  readonly record: LogRecord;
  readonly final: FinalInspection | 'byHand' | null;
  readonly madeAt: Instant;
  readonly proof: ProofState;
}

export interface ReprintView {
  readonly serial: string;
  readonly found: readonly FoundRecord[];
  readonly copy: RecordCopy | null;
  /** Why nothing can be shown, in a plain sentence. */
  readonly trouble: string | null;
}

/** A file that waits for the badge of a lead. */
export interface RestoringView {
  /** What is asked, in one sentence. */
  readonly prompt: string;
  /** Why it must not be done lightly: the seals know of more. It must be asked for once more before a badge counts. */
  readonly behind: string | null;
}

/** A file that a person chose or dropped. */
export interface GivenFile {
  readonly name: string;
  readonly size: number;
  arrayBuffer(): Promise<ArrayBuffer>;
}

/** Everything that can be asked for on the records page. */
export interface RecordActs {
  show(): void;
  exportAll(): void;
  verify(file: GivenFile): void;
  restore(file: GivenFile): void;
  /** Restores the copy that lies in the chosen folder. */
  restoreOffered?(): void;
  /** Although the seals of this kiosk know of more. */
  restoreAllTheSame?(): void;
  /** Lets go of the file that waits for a badge. */
  cancelRestore?(): void;
  /** Looks for the records of the component with this serial. */
  find?(serial: string): void;
  /** Shows the record of this pack as a copy. */
  openCopy?(pack: string): void;
  closeCopy?(): void;
  chooseFolder(): void;
}
