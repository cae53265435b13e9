/** Base 32 without padding (RFC 4648 section 6): capitals and digits alone, which every scanner's keyboard can type. */
import { ok, refused, type Result } from '../../domain/result';

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';

/** The text for these bytes. */
export function makeBase32(bytes: Uint8Array): string {
  let text = '';
  let bits = 0;
  let held = 0;
  for (const byte of bytes) {
    bits = ((bits << 8) | byte) & 0xfff;
    for (held += 8; held >= 5; held -= 5) text += DIGITS.charAt((bits >> (held - 5)) & 31);
  }
  return held === 0 ? text : text + DIGITS.charAt((bits << (5 - held)) & 31);
}

/** The inverse of `makeBase32`; one sequence of bytes has one spelling. */
export function parseBase32(text: string): Result<Uint8Array, 'not-base32'> {
  const bytes: number[] = [];
  let bits = 0;
  let held = 0;
  for (const character of text) {
    const digit = DIGITS.indexOf(character);
    if (digit < 0) return notBase32();
    bits = ((bits << 5) | digit) & 0xfff;
    held += 5;
    if (held < 8) continue;
    held -= 8;
    bytes.push((bits >> held) & 0xff);
  }
  const found = Uint8Array.from(bytes);
  return makeBase32(found) === text ? ok(found) : notBase32();
}

function notBase32(): Result<never, 'not-base32'> {
  return refused('not-base32', 'This is not the text of a card; scan it again, or copy it whole.');
}
