import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeCanonicalJson } from '../../../src/record/chain/canonical-json';

const canonical = (value: unknown): string => {
  const text = makeCanonicalJson(value);
  if (!text.ok) throw new Error(text.detail);
  return text.value;
};
const double = (hex: string): number => {
  const view = new DataView(new ArrayBuffer(8));
  view.setBigUint64(0, BigInt(`0x${hex}`));
  return view.getFloat64(0);
};

describe('the six published pairs (cyberphone/json-canonicalization testdata, Apache-2.0)', () => {
  const PAIRS: readonly (readonly [string, string, string])[] = [
    ['arrays', '[56,{"d":true,"10":null,"1":[ ]}]', '[56,{"1":[],"10":null,"d":true}]'],
    [
      'values',
      String.raw`{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/","literals":[null,true,false]}`,
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    ],
    [
      'structures',
      '{"1":{"f":{"f":"hi","F":5} ,"\\n":56.0},"10":{ },"":"empty","a":{ },"111":[{"e":"yes","E":"no"}],"A":{ }}',
      '{"":"empty","1":{"\\n":56,"f":{"F":5,"f":"hi"}},"10":{},"111":[{"E":"no","e":"yes"}],"A":{},"a":{}}',
    ],
    ['unicode', '{"Unnormalized Unicode":"A\\u030a"}', '{"Unnormalized Unicode":"A\u030a"}'],
    [
      'weird',
      String.raw`{"\u20ac":"Euro Sign","\r":"Carriage Return","\ufb33":"Hebrew Letter Dalet With Dagesh","1":"One","\ud83d\ude02":"Smiley","\u0080":"Control\u007f","\u00f6":"Latin Small Letter O With Diaeresis","</script>":"Browser Challenge"}`,
      '{"\\r":"Carriage Return","1":"One","</script>":"Browser Challenge","\u0080":"Control\u007f","\u00f6":"Latin Small Letter O With Diaeresis","\u20ac":"Euro Sign","\u{1f602}":"Smiley","\ufb33":"Hebrew Letter Dalet With Dagesh"}',
    ],
    [
      'french',
      '{"peach":"This sorting order","péché":"is wrong according to French","pêche":"but canonicalization MUST","sin":"ignore locale"}',
      '{"peach":"This sorting order","péché":"is wrong according to French","pêche":"but canonicalization MUST","sin":"ignore locale"}',
    ],
  ];
  it.each(PAIRS)('%s', (_, input, output) => {
    expect(canonical(JSON.parse(input))).toBe(output);
  });
});

describe('numbers as RFC 8785 appendix B and the published number sequence have them', () => {
  it.each([
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['8000000000000001', '-5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['ffefffffffffffff', '-1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['4340000000000001', '9007199254740994'],
    ['4340000000000002', '9007199254740996'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['44b52d02c7e14af7', '1.0000000000000001e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef4f', '999999999999999900000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555553', '333333333.3333332'],
    ['41b3de4355555557', '333333333.33333343'],
    ['becbf647612f3696', '-0.0000033333333333333333'],
    ['43143ff3c1cb0959', '1424953923781206.2'],
  ])('%s is %s', (hex, text) => {
    expect(canonical(double(hex))).toBe(text);
  });

  it.each(['7fffffffffffffff', '7ff0000000000000', 'fff0000000000000'])('%s is no JSON number', (hex) => {
    expect(makeCanonicalJson([double(hex)])).toMatchObject({ ok: false, reason: 'not-json' });
  });

  it.each([
    [1_000, 'be18b62b6f69cdab33a7e0dae0d9cfa869fda80ddc712221570f9f40a5878687'],
    [10_000, 'b9f7a8e75ef22a835685a52ccba7f7d6bdc99e34b010992cbc5864cd12be6892'],
  ])('the first %i lines of the published sequence hash to the published SHA-256', (lines, digest) => {
    const hash = createHash('sha256');
    for (const bits of publishedSequence(lines)) {
      hash.update(`${bits.toString(16)},${canonical(double(bits.toString(16).padStart(16, '0')))}\n`);
    }
    expect(hash.digest('hex')).toBe(digest);
  });
});

/** The sequence as its publisher describes it: fixed values, 2,000 in a row, then what repeated hashing of zeros gives. */
function* publishedSequence(length: number): Generator<bigint> {
  const vectors = JSON.parse(readFileSync(join(import.meta.dirname, '../vectors/es6-doubles.json'), 'utf8')) as {
    bits: string[];
  };
  let left = length;
  const take = (): boolean => left-- > 0;
  for (const hex of vectors.bits) if (take()) yield BigInt(`0x${hex}`);
  for (let i = 0n; i < 2_000n; i += 1n) if (take()) yield 0x0010000000000000n + i;
  let block: Buffer = Buffer.alloc(32);
  while (left > 0) {
    block = createHash('sha256').update(block).digest();
    for (let at = 0; at < 32; at += 8) {
      const value = block.readDoubleLE(at);
      if (value !== 0 && Number.isFinite(value) && take()) yield block.readBigUInt64LE(at);
    }
  }
}

describe('what JSON cannot carry is refused', () => {
  it.each([
    ['undefined', undefined],
    ['undefined in an object', { a: undefined }],
    ['a hole in a list', [1, undefined]],
    ['a function', () => 0],
    ['a bigint', 1n],
    ['a symbol', Symbol('x')],
    ['a date', new Date(0)],
    ['a map', new Map()],
    ['bytes', new Uint8Array(1)],
    ['half a surrogate pair', '\ud83d'],
    ['half a surrogate pair in a key', { '\ude02': 1 }],
    ['the halves in the wrong order', '\ude02\ud83d'],
  ])('%s', (_, value) => {
    expect(makeCanonicalJson(value)).toMatchObject({ ok: false, reason: 'not-json' });
  });

  it('a value nested without end', () => {
    let deep: unknown = 1;
    for (let i = 0; i < 100_000; i += 1) deep = [deep];
    expect(makeCanonicalJson(deep)).toMatchObject({ ok: false, reason: 'not-json' });
  });
});

describe('any JSON value', () => {
  it('keeps its meaning, and the order of its keys does not matter', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 5 }), (value) => {
        const text = canonical(value);
        expect(canonical(JSON.parse(text))).toBe(text);
        expect(canonical(backwards(value))).toBe(text);
        expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)));
      }),
    );
  });
});

/** The same value with every object's keys put in the other way round. */
function backwards(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(backwards);
  if (typeof value !== 'object' || value === null) return value;
  const turned: Record<string, unknown> = Object.create(null) as Record<string, unknown>;
  for (const [key, item] of Object.entries(value).reverse()) turned[key] = backwards(item);
  return turned;
}
