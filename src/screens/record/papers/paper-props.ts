/** What both papers are given. */
import type { LogRecord } from '../../../domain/log-record';
import type { ProofState } from '../../contract/proof-view';
import type { FinalInspection } from '../../contract/pack-view';

export interface PaperProps {
  readonly record: LogRecord;
  /** Who released the final hold; `byHand` while it is still to come, null for a record that has none. */
  readonly final: FinalInspection | 'byHand' | null;
  readonly proof: ProofState | null;
  /** When this copy is made; null for an original. */
  readonly copyOf: string | null;
}
