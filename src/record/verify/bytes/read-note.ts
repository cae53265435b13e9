/** Takes signed notes, keys and checkpoints apart: the verifier's own reading of C2SP signed-note and tlog-checkpoint. */
import { hexAt, sha256 } from './sha256';

const ENCODER = new TextEncoder();

export interface ReadKey {
  readonly name: string;
  readonly id: string;
  readonly publicKey: Uint8Array;
  readonly text: string;
}

export interface ReadNote {
  /** What is signed, with its last line feed. */
  readonly text: string;
  readonly signatures: readonly { readonly name: string; readonly id: string; readonly signature: Uint8Array }[];
}

export interface ReadCheckpoint {
  readonly origin: string;
  readonly size: number;
  /** Hex. */
  readonly root: string;
  readonly more: readonly string[];
}

/** Bytes of standard Base 64, or null. `atob` is lenient, so what it gave is written again and compared. */
function fromBase64(text: string): Uint8Array | null {
  try {
    const raw = atob(text);
    return btoa(raw) === text ? Uint8Array.from(raw, (character) => character.charCodeAt(0)) : null;
  } catch {
    return null;
  }
}

/** A verifier key, or null. Its id must be the first four bytes of SHA-256(name, line feed, type, key). */
export function readKey(text: string): ReadKey | null {
  const [name = '', id = '', ...rest] = text.split('+');
  const bytes = fromBase64(rest.join('+'));
  if (name === '' || /\s/u.test(name) || bytes?.length !== 33 || bytes[0] !== 1) return null;
  const named = ENCODER.encode(`${name}\n`);
  // Joined without spreading: a name may be as long as whoever wrote the file liked.
  const hashed = new Uint8Array(named.length + bytes.length);
  hashed.set(named);
  hashed.set(bytes, named.length);
  if (hexAt(sha256(hashed)).slice(0, 8) !== id) return null;
  return { name, id, publicKey: bytes.slice(1), text };
}

/** A signed note; one without signatures is given back with none; null for what is neither. */
export function readNote(note: string): ReadNote | null {
  if (!note.endsWith('\n')) return null;
  const lines = note.slice(0, -1).split('\n');
  const gap = lines.lastIndexOf('');
  if (gap < 0) return { text: note, signatures: [] };
  const signatures = lines.slice(gap + 1).map((line) => {
    const [dash, name, encoded, more] = line.split(' ');
    const bytes = fromBase64(encoded ?? '');
    if (dash !== '—' || name === undefined || name === '' || more !== undefined || bytes === null) return null;
    if (bytes.length < 5) return null;
    const id = [...bytes.subarray(0, 4)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
    return { name, id, signature: bytes.slice(4) };
  });
  const whole = signatures.filter((one) => one !== null);
  if (whole.length === 0 || whole.length !== signatures.length) return null;
  return { text: `${lines.slice(0, gap).join('\n')}\n`, signatures: whole };
}

/** A checkpoint's text, or null. */
export function readCheckpointText(text: string): ReadCheckpoint | null {
  const [origin, size, root, ...more] = text.split('\n');
  const bytes = fromBase64(root ?? '');
  if (more.pop() !== '' || more.includes('') || origin === undefined || origin === '') return null;
  if (size === undefined || String(Number(size)) !== size || !Number.isSafeInteger(Number(size))) return null;
  if (bytes?.length !== 32 || Number(size) < 0) return null;
  return { origin, size: Number(size), root: hexAt(bytes), more };
}
