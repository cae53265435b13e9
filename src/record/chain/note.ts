/** Signed notes (C2SP signed-note): readable text, an empty line, and signature lines below it. */
import { base64 } from '@scure/base';
import { bytesToHex, hexToBytes } from '@noble/hashes/utils.js';
import { assert } from '../../domain/assert';
import { ok, refused, type Result } from '../../domain/result';
import { parseBase64 } from './base64';
import { createDigest } from './hash';
import { isWellFormed, makeUtf8 } from './utf8';

/** Signature type 0x01: Ed25519 over the note's text. */
const ED25519 = 0x01;
const ED25519_KEY_BYTES = 32;
/** The format asks for at least sixteen to be accepted. */
const MOST_SIGNATURES = 32;
/** Far above any checkpoint; a longer text is none of ours. */
const LONGEST_NOTE = 20_000;

export interface NoteSignature {
  readonly name: string;
  /** Eight hex digits. */
  readonly keyId: string;
  readonly signature: Uint8Array;
}

export interface Note {
  /** Ends with a line feed. This is what is signed. */
  readonly text: string;
  readonly signatures: readonly NoteSignature[];
}

export interface VerifierKey {
  readonly name: string;
  readonly keyId: string;
  /** Ed25519 public key, 32 bytes (RFC 8032). */
  readonly publicKey: Uint8Array;
}

export type NoteFault = 'not-a-note' | 'not-a-key';

/** Whether a key may have this name: no spaces, no plus. */
function isKeyName(name: string): boolean {
  return name !== '' && isWellFormed(name) && !/[\s+]/u.test(name) && !hasControls(name);
}

/** The verifier's side of a key; its id is the first four bytes of SHA-256(name, line feed, 0x01, key). */
export function makeKey(name: string, publicKey: Uint8Array): VerifierKey {
  assert(isKeyName(name) && publicKey.length === ED25519_KEY_BYTES, 'a key has a name and 32 bytes');
  const digest = createDigest();
  digest.update(makeUtf8(`${name}\n`));
  digest.update(Uint8Array.of(ED25519, ...publicKey));
  return { name, keyId: bytesToHex(digest.hash().subarray(0, 4)), publicKey };
}

/** The usual text form of a verifier key: name, id and Base 64 of type and key, joined by plus signs. */
export function makeKeyText({ name, keyId, publicKey }: VerifierKey): string {
  return `${name}+${keyId}+${base64.encode(Uint8Array.of(ED25519, ...publicKey))}`;
}

/**
 * The inverse of `makeKeyText`; the id must be that of the key.
 * @internal Proves in tests that the text form can be read back; the verifier has a reader of its own.
 */
export function parseKeyText(text: string): Result<VerifierKey, NoteFault> {
  const match = /^([^+]{1,400})\+([0-9a-f]{8})\+([A-Za-z0-9+/=]{44,48})$/u.exec(text);
  const bytes = parseBase64(match?.[3] ?? '-');
  const name = match?.[1] ?? '';
  if (bytes.ok && bytes.value.length === 1 + ED25519_KEY_BYTES && bytes.value[0] === ED25519 && isKeyName(name)) {
    const key = makeKey(name, bytes.value.slice(1));
    if (key.keyId === match?.[2]) return ok(key);
  }
  return refused('not-a-key', 'This is no key of a kiosk; copy it again, whole and on one line.');
}

/** The note as it is stored, printed and exported. */
export function makeNote({ text, signatures }: Note): string {
  assert(isText(text) && signatures.length > 0, 'a note is lines of text with a signature');
  const lines = signatures.map(({ name, keyId, signature }) => {
    assert(isKeyName(name) && /^[0-9a-f]{8}$/.test(keyId), 'a signature names its key');
    return `— ${name} ${base64.encode(Uint8Array.of(...hexToBytes(keyId), ...signature))}\n`;
  });
  return `${text}\n${lines.join('')}`;
}

/** The inverse of `makeNote`. Nothing is verified here: a note counts only once a known key's signature fits. */
export function parseNote(note: string): Result<Note, NoteFault> {
  const split = note.lastIndexOf('\n\n');
  const text = note.slice(0, split + 1);
  const below = note.slice(split + 2);
  const lines = below.split('\n');
  if (note.length > LONGEST_NOTE || split < 0 || !isText(text) || lines.pop() !== '') return notANote();
  if (lines.length === 0 || lines.length > MOST_SIGNATURES) return notANote();
  const signatures: NoteSignature[] = [];
  for (const line of lines) {
    const match = /^— (\S+) (\S+)$/u.exec(line);
    const bytes = parseBase64(match?.[2] ?? '-');
    const name = match?.[1] ?? '';
    if (!bytes.ok || bytes.value.length < 5 || !isKeyName(name)) return notANote();
    signatures.push({ name, keyId: bytesToHex(bytes.value.subarray(0, 4)), signature: bytes.value.slice(4) });
  }
  return ok({ text, signatures });
}

function notANote(): Result<never, NoteFault> {
  return refused('not-a-note', 'This is no signed note; copy it again, from its first line to its last.');
}

function isText(text: string): boolean {
  return text.endsWith('\n') && isWellFormed(text) && !hasControls(text.replaceAll('\n', ''));
}

function hasControls(text: string): boolean {
  return [...text].some((character) => character < ' ');
}
