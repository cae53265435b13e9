/** A checkpoint as it is kept and exported: a signed note, or the bare text where the browser could not sign. */
import { ok, type Result } from '../../domain/result';
import { parseCheckpointText, type Checkpoint } from './checkpoint';
import { parseNote, type NoteSignature } from './note';

export interface SealedCheckpoint {
  readonly checkpoint: Checkpoint;
  /** None where nobody could sign. Nothing is verified here. */
  readonly signatures: readonly NoteSignature[];
}

/** Reads what `CheckpointSigner` keeps. */
export function parseSealedCheckpoint(text: string): Result<SealedCheckpoint, 'not-a-checkpoint'> {
  const note = parseNote(text);
  const checkpoint = parseCheckpointText(note.ok ? note.value.text : text);
  if (!checkpoint.ok) return checkpoint;
  return ok({ checkpoint: checkpoint.value, signatures: note.ok ? note.value.signatures : [] });
}
