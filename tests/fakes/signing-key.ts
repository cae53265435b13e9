/** Ed25519 private keys from published seeds, which the kiosk itself can never have: its own key is made in place. */

/** The fixed beginning of an Ed25519 private key in PKCS #8 (RFC 8410 section 7). */
const PKCS8_HEAD = Uint8Array.from(Buffer.from('302e020100300506032b657004220420', 'hex'));

/** The private key of a 32-byte seed. */
export function privateKeyOf(seed: Uint8Array): Promise<CryptoKey> {
  const pkcs8 = Uint8Array.of(...PKCS8_HEAD, ...seed);
  return crypto.subtle.importKey('pkcs8', pkcs8, { name: 'Ed25519' }, false, ['sign']);
}
