/** Standard Base 64 with padding (RFC 4648 section 4), strictly: one sequence of bytes has exactly one spelling. */
import { ok, refused, type Result } from '../../domain/result';

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** The text for these bytes. */
export function makeBase64(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += 3) {
    const [a = 0, b = 0, c = 0] = bytes.subarray(at, at + 3);
    const bits = (a << 16) | (b << 8) | c;
    const four = [18, 12, 6, 0].map((shift) => DIGITS.charAt((bits >> shift) & 63)).join('');
    // One digit more than there are bytes left, and never more than four.
    text += four.slice(0, bytes.length - at + 1).padEnd(4, '=');
  }
  return text;
}

/** The inverse of `makeBase64`. */
export function parseBase64(text: string): Result<Uint8Array, 'not-base64'> {
  const bytes: number[] = [];
  let bits = 0;
  let held = 0;
  for (const digit of text.replace(/=+$/, '')) {
    bits = ((bits << 6) | DIGITS.indexOf(digit)) & 0xffff;
    held += 6;
    if (held >= 8) {
      held -= 8;
      bytes.push((bits >> held) & 0xff);
    }
  }
  // What is written again otherwise was no Base 64, or had bits left over that are not zero.
  const found = Uint8Array.from(bytes);
  if (makeBase64(found) === text) return ok(found);
  return refused('not-base64', 'This is not Base 64; check that it was copied whole.');
}
