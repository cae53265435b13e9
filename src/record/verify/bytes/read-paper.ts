/** Takes the code of a printed card apart: the verifier's own reading of it. */
import { sha256 } from './sha256';

const MARK = 'SCP1';
const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';
/** A card of the longest origin, line and proof has less. */
const LONGEST = 8_000;
const DECODER = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

export interface ReadPaper {
  readonly origin: string;
  readonly size: number;
  readonly seq: number;
  readonly leaf: Uint8Array;
  readonly path: readonly Uint8Array[];
  readonly line: string;
  readonly keyId: string;
  readonly signature: Uint8Array;
}

/** Whether a scanned text is meant to be a card's code. */
export function looksLikePaper(text: string): boolean {
  return text.startsWith(MARK) && text.length > 200;
}

/** The parts of the code, or null for what is none or was misread. Blanks and line ends do not count. */
export function readPaper(text: string): ReadPaper | null {
  const plain = text.replace(/\s+/g, '');
  if (!plain.startsWith(MARK) || plain.length > LONGEST) return null;
  const bytes = decode(plain.slice(MARK.length));
  if (bytes === null || bytes.length < 3) return null;
  const check = sha256(bytes.subarray(0, -2));
  if (check[0] !== bytes.at(-2) || check[1] !== bytes.at(-1)) return null;
  try {
    return take(bytes.subarray(0, -2));
  } catch {
    return null;
  }
}

function take(bytes: Uint8Array): ReadPaper {
  let at = 0;
  const next = (length: number): Uint8Array => {
    if (at + length > bytes.length) throw new RangeError('cut short');
    at += length;
    return bytes.slice(at - length, at);
  };
  const count = (length: number): number => next(length).reduce((sum, byte) => sum * 256 + byte, 0);
  const origin = DECODER.decode(next(count(1)));
  const [size, seq, leaf] = [count(6), count(6), next(32)];
  const path = Array.from({ length: count(1) }, () => next(32));
  const line = DECODER.decode(next(count(2)));
  const keyId = count(4).toString(16).padStart(8, '0');
  const signature = next(64);
  if (at !== bytes.length) throw new RangeError('too long');
  return { origin, size, seq, leaf, path, line, keyId, signature };
}

function decode(text: string): Uint8Array | null {
  const bytes = new Uint8Array(Math.floor((text.length * 5) / 8));
  let held = 0;
  let bits = 0;
  let at = 0;
  for (const letter of text) {
    const value = LETTERS.indexOf(letter);
    if (value < 0) return null;
    bits = bits * 32 + value;
    held += 5;
    if (held < 8) continue;
    held -= 8;
    bytes[at] = Math.floor(bits / 2 ** held);
    bits %= 2 ** held;
    at += 1;
  }
  // What is left over must be nothing, else two texts would mean the same card.
  return bits === 0 && held < 5 ? bytes : null;
}
