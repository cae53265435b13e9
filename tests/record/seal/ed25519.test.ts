/** Ed25519 as the host does it, against RFC 8032 section 7.1, tests 1 to 3; the key that the kiosk makes. */
import { describe, expect, it } from 'vitest';
import { checkSignature, makeKeyPair, publicBytes, sign } from '../../../src/record/seal/ed25519';
import { privateKeyOf } from '../../fakes/signing-key';

const bytes = (hex: string): Uint8Array => Uint8Array.from(Buffer.from(hex, 'hex'));

const RFC_8032 = [
  {
    name: 'test 1',
    secret: '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60',
    key: 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    message: '',
    signature:
      'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
  },
  {
    name: 'test 2',
    secret: '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb',
    key: '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
    message: '72',
    signature:
      '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
  },
  {
    name: 'test 3',
    secret: 'c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7',
    key: 'fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025',
    message: 'af82',
    signature:
      '6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a',
  },
];

describe.each(RFC_8032)('RFC 8032 $name', ({ secret, key, message, signature }) => {
  it('signs as published', async () => {
    const made = await sign(await privateKeyOf(bytes(secret)), bytes(message));
    expect(Buffer.from(made).toString('hex')).toBe(signature);
  });

  it('is accepted, and with any one bit of signature or key changed it is not', async () => {
    expect(await checkSignature(bytes(key), bytes(message), bytes(signature))).toBe(true);
    for (const bit of [0, 77, 255, 256, 400, 511]) {
      const bent = bytes(signature);
      bent[bit >> 3]! ^= 1 << (bit & 7);
      expect(await checkSignature(bytes(key), bytes(message), bent)).not.toBe(true);
    }
    expect(await checkSignature(bytes(key), bytes(`${message}00`), bytes(signature))).toBe(false);
    expect(await checkSignature(bytes(key).fill(0xff), bytes(message), bytes(signature))).not.toBe(true);
  });
});

describe('the key that a kiosk makes', () => {
  it('signs, and its private half cannot be read out', async () => {
    const pair = await makeKeyPair();
    if (!pair.ok) throw new Error(pair.detail);
    expect(pair.value.privateKey.extractable).toBe(false);
    await expect(crypto.subtle.exportKey('pkcs8', pair.value.privateKey)).rejects.toThrow();
    const message = bytes('00112233');
    const signature = await sign(pair.value.privateKey, message);
    expect(await checkSignature(await publicBytes(pair.value.publicKey), message, signature)).toBe(true);
  });
});
