/** What the records page is joined from. */
import type { Instant } from '../../domain/instant';
import type { Store } from '../../record/store/store';
import type { CheckpointSigner } from '../../record/seal/checkpoint-signer';
import type { Archive } from './archive';
import type { Backup } from './backup';

export interface RecordsParts {
  readonly store: Store;
  readonly signer: CheckpointSigner;
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
