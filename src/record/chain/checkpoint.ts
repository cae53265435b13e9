/** Checkpoints (C2SP tlog-checkpoint): where the journal stood, as three lines of text and whatever stands below. */
import { base64 } from '@scure/base';
import { assert } from '../../domain/assert';
import { ok, refused, type Result } from '../../domain/result';
import { parseBase64 } from './base64';
import { isHash, type Hash } from './hash';

export interface Checkpoint {
  /** Which journal: a name that no other kiosk has. */
  readonly origin: string;
  readonly size: number;
  readonly root: Hash;
  /** Further lines; ours say that nobody signed, or what a printed card states. */
  readonly extensions: readonly string[];
}

/** The extension line of a checkpoint that could not be signed. */
export const UNSIGNED_LINE = 'unsigned: this browser has no Ed25519';

/** The text that is signed. */
export function makeCheckpointText({ origin, size, root, extensions }: Checkpoint): string {
  const lines = [origin, String(size), base64.encode(root), ...extensions];
  assert(Number.isSafeInteger(size) && size >= 0 && isHash(root), 'a checkpoint has a size and a root');
  assert(
    lines.every((line) => line !== '' && !line.includes('\n')),
    'a checkpoint is made of lines that are not empty',
  );
  return `${lines.join('\n')}\n`;
}

/** The inverse of `makeCheckpointText`. */
export function parseCheckpointText(text: string): Result<Checkpoint, 'not-a-checkpoint'> {
  const [origin = '', size = '', root = '', ...extensions] = text.split('\n');
  const end = extensions.pop();
  const hash = parseBase64(root);
  const sound =
    end === '' &&
    origin !== '' &&
    /^(0|[1-9]\d{0,15})$/.test(size) &&
    // Beyond this two different texts would be read as one number.
    Number.isSafeInteger(Number(size)) &&
    hash.ok &&
    isHash(hash.value) &&
    extensions.every((line) => line !== '');
  if (!sound) {
    return refused('not-a-checkpoint', 'This is no checkpoint of a journal; copy it again, from its first line.');
  }
  return ok({ origin, size: Number(size), root: hash.value, extensions });
}
