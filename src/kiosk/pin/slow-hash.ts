/** PINs by WebCrypto: PBKDF2 with HMAC-SHA-256. The same code serves the page and the command line. */
import { base64 } from '@scure/base';
import { parseBase64 } from '../../record/chain/base64';
import { makeStoredPin, parseStoredPin, PIN_ITERATIONS } from '../../domain/pin';

const SALT_BYTES = 16;
const HASH_BITS = 256;

/** 32 bytes of PBKDF2-HMAC-SHA-256 (RFC 8018). */
export async function slowHash(pin: string, salt: Uint8Array<ArrayBuffer>, iterations: number): Promise<Uint8Array> {
  const key = await crypto.subtle.importKey('raw', new TextEncoder().encode(pin), 'PBKDF2', false, ['deriveBits']);
  return new Uint8Array(
    await crypto.subtle.deriveBits({ name: 'PBKDF2', hash: 'SHA-256', salt, iterations }, key, HASH_BITS),
  );
}

/** The stored form of a new PIN, with a salt of its own. */
export async function storePin(pin: string): Promise<string> {
  const salt = crypto.getRandomValues(new Uint8Array(SALT_BYTES));
  const hash = await slowHash(pin, salt, PIN_ITERATIONS);
  return makeStoredPin({ iterations: PIN_ITERATIONS, salt: base64.encode(salt), hash: base64.encode(hash) });
}

/** Whether this is the PIN; false for a stored form that is none. Takes as long for a wrong PIN as for the right one. */
export async function pinFits(pin: string, stored: string): Promise<boolean> {
  const parts = parseStoredPin(stored);
  if (!parts.ok) return false;
  const salt = parseBase64(parts.value.salt);
  const hash = parseBase64(parts.value.hash);
  if (!salt.ok || !hash.ok) return false;
  const wanted = hash.value;
  const made = await slowHash(pin, new Uint8Array(salt.value), parts.value.iterations);
  let differing = wanted.length ^ made.length;
  for (let at = 0; at < made.length; at += 1) differing |= (made[at] ?? 0) ^ (wanted[at] ?? 0);
  return differing === 0;
}
