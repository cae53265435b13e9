/** What the kiosk as a whole shows: the start screen, a pack, a rehearsal, or why it cannot go on. */
import type { Command } from '../../domain/command';
import type { Instant } from '../../domain/instant';
import type { LogRecord, Paper } from '../../domain/log-record';
import type { EnrolView } from './enrol-view';
import type { TagsView } from '../../packing/tags/tags-view';
import type { FinalInspection, PackView, Prompt, RehearsalView } from '../../packing/machine/view';

export const PARTS = ['microphone', 'camera', 'voice', 'recogniser', 'storage'] as const;
export type Part = (typeof PARTS)[number];

export interface SelfCheckLine {
  readonly part: Part;
  /** `untried`: another part must work before this one can be tried. */
  readonly state: 'checking' | 'works' | 'failed' | 'untried';
  /** Plain sentence: what is wrong and what still works without it; empty when it works or is being checked. */
  readonly detail: string;
}

export interface ProcedureChoice {
  readonly id: string;
  readonly title: string;
  readonly revision: string;
  readonly stages: number;
  readonly holds: number;
  readonly demonstration?: boolean;
}

/** A loft file that was turned away at load, with the place in it. */
export interface RefusedFile {
  readonly file: string;
  readonly line: number | null;
  readonly reason: string;
}

export interface StartView {
  readonly loft: string;
  readonly table: string;
  readonly checks: readonly SelfCheckLine[];
  readonly procedures: readonly ProcedureChoice[];
  readonly refusedFiles: readonly RefusedFile[];
  readonly prompt: Prompt;
  readonly notice: string | null;
  /** Absent or null where there is no choice of camera. */
  readonly cameras?: CamerasView | null;
  /** Whether a voice can be kept here. */
  readonly teachesVoice?: boolean;
  /** Whether any procedure of the loft is only for demonstration. */
  readonly demonstration?: boolean;
}

/** Several cameras are connected, and one of them is used. */
export interface CamerasView {
  /** Its name as the browser tells it; null while none runs. */
  readonly used: string | null;
  readonly count: number;
}

/** What the ear and the voice are doing, for the strip that is always visible. */
export interface VoiceStrip {
  readonly ear: 'loading' | 'listening' | 'closed' | 'off';
  readonly speaking: boolean;
  readonly camera: 'on' | 'off' | 'failed';
  /** The last thing heard, or that nothing was: "Not heard. Say it again, or press." */
  readonly heard: string | null;
  /** Microphone, camera or voice trouble, in a plain sentence with what still works; stays until mended. */
  readonly trouble: readonly string[];
}

export interface Licence {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  readonly text: string;
}

/** The code on a data card. */
export interface CardProof {
  readonly text: string;
  /** Its picture as a `data:` address. */
  readonly picture: string;
  /** Width of the picture on paper, in millimetres: wide enough for a camera 30 cm away. */
  readonly widthMm: number;
}

/** What happened to the proof of a signed record: it takes a moment, and a browser may be unable to sign. */
export type ProofState =
  | { readonly state: 'making' }
  | { readonly state: 'made'; readonly proof: CardProof }
  | { readonly state: 'failed'; readonly why: string };

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

/** The pad for a PIN, over the pack. What is typed stays in the pad. */
export interface PinView {
  /** Changes when another PIN is asked for, so that nothing typed is left over. */
  readonly key: string;
  readonly person: string;
  /** The PIN is being compared, which takes a moment on purpose. */
  readonly checking: boolean;
}

export interface PinActs {
  enter(digits: string): void;
  cancel(): void;
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

export type AppView =
  | { readonly screen: 'loading'; readonly text: string }
  | { readonly screen: 'records'; readonly records: RecordsView; readonly pin?: PinView | null }
  | { readonly screen: 'start'; readonly start: StartView }
  | { readonly screen: 'secondTab' }
  | {
      readonly screen: 'pack';
      readonly view: PackView;
      readonly proof?: ProofState | null;
      readonly pin?: PinView | null;
      /** Why the loft's files of now do not count, in a plain sentence; the last good ones do. */
      readonly filesTrouble?: string | null;
    }
  | { readonly screen: 'rehearsal'; readonly view: RehearsalView }
  | { readonly screen: 'tags'; readonly tags: TagsView; readonly pin?: PinView | null }
  | { readonly screen: 'enrol'; readonly enrol: EnrolView }
  | { readonly screen: 'licences'; readonly licences: readonly Licence[] }
  /** Nothing can be recorded, so nothing may be packed. */
  | { readonly screen: 'fault'; readonly heading: string; readonly text: string };

/** Everything a screen can ask for. Screens call these and nothing else. */
export interface Acts {
  /** A touch control or key was used. */
  command(command: Command, channel: 'touch' | 'key'): void;
  rehearse(procedure: string): void;
  showLicences(): void;
  /** From rehearsal, licences, enrolment or an ended pack back to the start. */
  leave(): void;
  retry(): void;
  /** The next of several cameras, from the start screen. */
  useNextCamera?(): void;
  /** Prints one of the two papers of the record that is shown. */
  print(paper: Paper): void;
  /** Absent where there is no store behind the page. */
  readonly records?: RecordActs;
  readonly pin?: PinActs;
  /** Opens the page of open tags, from the start screen. */
  showTags?(): void;
  /** Opens the enrolment of a voice, from the start screen. */
  teachVoice?(): void;
}
