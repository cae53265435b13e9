/** The signing key of the demonstration exports. It is made from a word that everybody can read, and so proves nothing. */
import { createDigest } from '../../record/chain/hash';
import { makeUtf8 } from '../../record/chain/utf8';

/** The fixed beginning of an Ed25519 private key in PKCS #8 (RFC 8410 section 7). */
const PKCS8_HEAD = [0x30, 0x2e, 0x02, 0x01, 0x00, 0x30, 0x05, 0x06, 0x03, 0x2b, 0x65, 0x70, 0x04, 0x22, 0x04, 0x20];

/** The same pair for the same word, every time. */
export async function keyPairFrom(word: string): Promise<CryptoKeyPair> {
  const digest = createDigest();
  digest.update(makeUtf8(`for demonstration only: ${word}`));
  const pkcs8 = Uint8Array.of(...PKCS8_HEAD, ...digest.hash());
  const privateKey = await crypto.subtle.importKey('pkcs8', pkcs8, { name: 'Ed25519' }, true, ['sign']);
  const { kty, crv, x } = await crypto.subtle.exportKey('jwk', privateKey);
  const jwk = { ...(kty && crv && x ? { kty, crv, x } : {}) };
  const publicKey = await crypto.subtle.importKey('jwk', jwk, { name: 'Ed25519' }, true, ['verify']);
  return { privateKey, publicKey };
}
