import { sha256 } from '@noble/hashes/sha2.js';
import { describe, expect, it } from 'vitest';
import {
  emptyRoot,
  leafHash,
  makeHashHex,
  nodeHash,
  parseHashHex,
  sameHash,
  type Hash,
} from '../../../src/record/chain/hash';

const ascii = (text: string): Uint8Array => new TextEncoder().encode(text);

// FIPS 180-4, examples published beside the standard (one block, two blocks, 896 bits, a million letters).
const SHA256_EXAMPLES: readonly (readonly [string, string, string])[] = [
  ['"abc"', 'abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  [
    '448 bits',
    'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  ],
  [
    '896 bits',
    'abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmnoijklmnopjklmnopqklmnopqrlmnopqrsmnopqrstnopqrstu',
    'cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1',
  ],
  ['a million "a"', 'a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'],
];

describe('SHA-256 gives the published digests (FIPS 180-4)', () => {
  it.each(SHA256_EXAMPLES)('%s', (_, text, digest) => {
    expect(makeHashHex(sha256(ascii(text)))).toBe(digest);
  });
});

describe('leaf, node and empty hashes of RFC 6962 section 2.1', () => {
  // Known answers as transparency-dev/merkle publishes them (Apache-2.0).
  it('the empty tree', () => {
    expect(makeHashHex(emptyRoot())).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855');
  });
  it('the empty leaf is not the empty tree', () => {
    expect(makeHashHex(leafHash(ascii('')))).toBe('6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d');
  });
  it('a leaf', () => {
    const digest = '395aa064aa4c29f7010acfe3f25db9485bbd4b91897b6ad7ad547639252b4d56';
    expect(makeHashHex(leafHash(ascii('L123456')))).toBe(digest);
  });
  it('a node is hashed with its own prefix', () => {
    // The published node has children shorter than a hash, so it is built here by hand beside our function.
    const byHand = sha256(new Uint8Array([1, ...ascii('N123'), ...ascii('N456')]));
    expect(makeHashHex(byHand)).toBe('aa217fe888e47007fa15edab33c2b492a722cb106c64667fc2b044444de66bbb');
    const left = leafHash(ascii('left'));
    const right = leafHash(ascii('right'));
    expect(nodeHash(left, right)).toEqual(sha256(new Uint8Array([1, ...left, ...right])));
    expect(nodeHash(left, right)).not.toEqual(nodeHash(right, left));
    expect(leafHash(new Uint8Array([...left, ...right]))).not.toEqual(nodeHash(left, right));
  });
  it('a child that is no hash is a broken assumption', () => {
    expect(() => nodeHash(ascii('N123'), ascii('N456'))).toThrow('Broken assumption');
  });
});

describe('hashes as hex', () => {
  it('come back as they were', () => {
    const hash = leafHash(ascii('x'));
    expect(parseHashHex(makeHashHex(hash))).toEqual({ ok: true, value: hash });
  });
  it.each([
    '',
    'ab',
    'A'.repeat(64),
    `${'a'.repeat(63)}g`,
    'a'.repeat(65),
    ` ${'a'.repeat(63)}`,
    `${'a'.repeat(64)}\n`,
  ])('refuses %j', (hex) => {
    expect(parseHashHex(hex)).toMatchObject({ ok: false, reason: 'not-a-hash' });
  });
});

describe('equality of hashes', () => {
  const hash: Hash = Uint8Array.from({ length: 32 }, (_, at) => at * 7);
  it.each(Array.from({ length: 32 }, (_, i) => i))('sees a change in byte %i', (i) => {
    const other = Uint8Array.from(hash, (byte, at) => (at === i ? byte ^ 1 : byte));
    expect(sameHash(hash, other)).toBe(false);
    expect(sameHash(hash, Uint8Array.from(hash))).toBe(true);
  });
  it('a shorter hash is never the same', () => {
    expect(sameHash(hash, hash.slice(0, 31))).toBe(false);
    expect(sameHash(hash.slice(0, 31), hash)).toBe(false);
  });
});
