/** Bytes that are no text, text that no bytes can carry, and how deep a value may be nested. */
import { describe, expect, it } from 'vitest';
import { makeCanonicalJson } from '../../../src/record/chain/canonical-json';
import { leafHash, nodeHash, parseHashHex } from '../../../src/record/chain/hash';
import { isWellFormed, makeUtf8, parseUtf8 } from '../../../src/record/chain/utf8';

const bytes = (hex: string): Uint8Array => Uint8Array.from(Buffer.from(hex, 'hex'));

describe('UTF-8', () => {
  it('keeps a byte order mark as the character that it is', () => {
    expect(parseUtf8(bytes('efbbbf41'))).toEqual({ ok: true, value: '\ufeffA' });
    expect(makeUtf8('\ufeffA')).toEqual(bytes('efbbbf41'));
  });

  it.each([
    ['a lone continuation byte', '80'],
    ['a letter in a longer form than it needs (RFC 3629 section 10)', 'c1bf'],
    ['half of a surrogate pair (RFC 3629 section 3)', 'eda080'],
    ['a character cut short', 'e282'],
    ['beyond U+10FFFF', 'f4908080'],
  ])('%s is refused, never repaired', (_, hex) => {
    expect(parseUtf8(bytes(hex))).toEqual({
      ok: false,
      reason: 'not-utf8',
      detail: 'The bytes are not UTF-8 text; the file is damaged or is not ours.',
    });
  });

  it.each([
    ['', true],
    ['Øster \u{1f602}', true],
    ['\ud83d', false],
    ['a\ude02b', false],
    ['\ude02\ud83d', false],
  ])('%j is well formed: %s', (text, expected) => {
    expect(isWellFormed(text)).toBe(expected);
  });
});

describe('a value that is no JSON', () => {
  const nested = (levels: number): unknown => Array.from({ length: levels }).reduce((inner) => [inner], 1);
  it.each([
    ['nested too deep', nested(65), 'The value is nested deeper than 64 levels; it cannot be written as JSON.'],
    ['without a value', undefined, 'A value of type undefined stands in the data; it cannot be written as JSON.'],
    ['with a map in it', { a: new Map() }, 'A value of type object stands in the data; it cannot be written as JSON.'],
    ['with no number', Number.NaN, 'A number is not finite; it cannot be written as JSON.'],
    ['with half a pair', ['\ud83d'], 'A text has half of a surrogate pair; it cannot be written as JSON.'],
  ])('%s is refused and says why', (_, value, detail) => {
    expect(makeCanonicalJson(value)).toEqual({ ok: false, reason: 'not-json', detail });
  });

  it('is not what is nested 64 deep, in lists or in objects', () => {
    expect(makeCanonicalJson(nested(64))).toMatchObject({ ok: true });
    const deep = Array.from({ length: 65 }).reduce((inner: unknown) => ({ a: inner }), 1);
    expect(makeCanonicalJson(deep)).toMatchObject({ ok: false });
  });

  it('does not hide what went wrong in the value itself', () => {
    const value = {
      get a(): never {
        throw new RangeError('broken');
      },
    };
    expect(() => makeCanonicalJson(value)).toThrow(RangeError);
  });
});

describe('hashes', () => {
  const [left, right] = [leafHash(bytes('01')), leafHash(bytes('02'))];
  it.each([
    ['left', left.slice(1), right],
    ['right', left, right.slice(1)],
  ])('a child on the %s that is no hash is a broken assumption', (_, one, other) => {
    expect(() => nodeHash(one, other)).toThrow('both children of a node are hashes');
  });

  it('say what to do with what is none', () => {
    expect(parseHashHex('x')).toMatchObject({
      detail: 'A hash must be 64 lower-case hexadecimal digits; check that it was copied whole.',
    });
  });
});
