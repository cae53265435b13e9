/** The verifier's SHA-256 against the examples of FIPS 180-4, and against another implementation at every length. */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { hexAt, Sha256, sha256 } from '../../../../src/record/verify/bytes/sha256';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('published examples (FIPS 180-4)', () => {
  it.each([
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
    [
      'abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmnoijklmnopjklmnopqklmnopqrlmnopqrsmnopqrstnopqrstu',
      'cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1',
    ],
    ['a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'],
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ])('%.20s', (text, hash) => expect(hexAt(sha256(bytes(text)))).toBe(hash));
});

describe('every way of taking bytes in', () => {
  const data = Uint8Array.from({ length: 300 }, (_, at) => (at * 7 + 3) % 256);

  it('agrees with another implementation at every length', () => {
    for (let length = 0; length <= 300; length += 1) {
      const part = data.subarray(0, length);
      expect(hexAt(sha256(part))).toBe(createHash('sha256').update(part).digest('hex'));
    }
  });

  it('does not depend on how it is cut, nor on what was hashed before', () => {
    const hasher = new Sha256();
    const out = new Uint8Array(64);
    for (let cut = 0; cut <= 300; cut += 1) {
      const length = Math.min(300, cut + 1);
      hasher.begin().take(data, 0, cut).take(data, cut).end(out, 32);
      expect(hexAt(out, 32)).toBe(hexAt(sha256(data)));
      hasher
        .begin()
        .byte(data[0] ?? 0)
        .take(data, 1, length)
        .end(out);
      expect(hexAt(out)).toBe(hexAt(sha256(data.subarray(0, length))));
    }
  });
});
