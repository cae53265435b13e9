/** Base 32 without padding (RFC 4648 section 6): capitals and digits alone, which every scanner's keyboard can type. */

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';

/** The text for these bytes. The way back is the verifier's alone (`src/record/verify/bytes/read-paper.ts`). */
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
