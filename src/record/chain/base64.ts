/** Standard Base 64 with padding (RFC 4648 section 4), strictly: one sequence of bytes has exactly one spelling. */
import { base64 } from '@scure/base';
import { ok, refused, type Result } from '../../domain/result';

/** The bytes of a text that `base64.encode` could have written. */
export function parseBase64(text: string): Result<Uint8Array, 'not-base64'> {
  try {
    return ok(base64.decode(text));
  } catch {
    return refused('not-base64', 'This is not Base 64; check that it was copied whole.');
  }
}
