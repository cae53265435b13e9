/** Everything a screen can ask for. Screens call these and nothing else. */
import type { Command } from '../../domain/command';
import type { Paper } from '../../domain/log-record';
import type { PinActs } from './pin-view';
import type { RecordActs } from './records-view';

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
