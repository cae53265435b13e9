/** Ed25519 (RFC 8032) by the host's WebCrypto: in Chromium and in Node alike. */
import { ok, refused, type Result } from '../../domain/result';

const NAME = 'Ed25519';

/** Makes a key pair whose private half can never be read out, only used. Refused where the host lacks Ed25519. */
export async function makeKeyPair(): Promise<Result<CryptoKeyPair, 'no-ed25519'>> {
  try {
    return ok((await crypto.subtle.generateKey({ name: NAME }, false, ['sign', 'verify'])) as CryptoKeyPair);
  } catch {
    return refused(
      'no-ed25519',
      'This browser cannot sign with Ed25519, so checkpoints are kept unsigned. Use a newer browser.',
    );
  }
}

/** The 32 bytes of a public key. */
export async function publicBytes(key: CryptoKey): Promise<Uint8Array> {
  return new Uint8Array(await crypto.subtle.exportKey('raw', key));
}

/** 64 bytes. */
export async function sign(key: CryptoKey, message: Uint8Array): Promise<Uint8Array> {
  return new Uint8Array(await crypto.subtle.sign({ name: NAME }, key, Uint8Array.from(message)));
}

/** Whether the signature is this key's; null where the host cannot tell, which must never be taken for yes. */
export async function checkSignature(
  publicKey: Uint8Array,
  message: Uint8Array,
  signature: Uint8Array,
): Promise<boolean | null> {
  try {
    const key = await crypto.subtle.importKey('raw', Uint8Array.from(publicKey), { name: NAME }, false, ['verify']);
    return await crypto.subtle.verify({ name: NAME }, key, Uint8Array.from(signature), Uint8Array.from(message));
  } catch (error) {
    // A key that is no point of the curve is refused by the host as bad data: that is a no.
    return error instanceof DOMException && error.name === 'DataError' ? false : null;
  }
}
