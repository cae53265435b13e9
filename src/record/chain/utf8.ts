/** Text to bytes and back, strictly: what is not UTF-8 is refused, never repaired. */
import { utf8ToBytes } from '@noble/hashes/utils.js';
import { ok, refused, type Result } from '../../domain/result';

/** The one host function that the pure folder uses; declared here, since its type check knows no DOM and no Node. */
declare const TextDecoder: new (
  label: string,
  options: { readonly fatal: boolean; readonly ignoreBOM: boolean },
) => { decode(bytes: Uint8Array): string };

const strict = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

/** Whether the text has no half of a surrogate pair, which UTF-8 cannot carry. */
export function isWellFormed(text: string): boolean {
  return !/\p{Surrogate}/u.test(text);
}

/** The UTF-8 bytes of a text; the caller has seen to it that it is well formed. */
export function makeUtf8(text: string): Uint8Array {
  return utf8ToBytes(text);
}

/** The inverse of `makeUtf8`. A byte order mark is kept as the character it is. */
export function parseUtf8(bytes: Uint8Array): Result<string, 'not-utf8'> {
  try {
    return ok(strict.decode(bytes));
  } catch {
    return refused('not-utf8', 'The bytes are not UTF-8 text; the file is damaged or is not ours.');
  }
}
