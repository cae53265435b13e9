import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Fact, FactBody, FactDraft } from '../../../src/domain/fact';
import { makeFactBytes, MAX_FACT_BYTES, parseFactBytes, sealFact } from '../../../src/record/chain/fact-bytes';
import { makeHashHex } from '../../../src/record/chain/hash';
import { bodyArbitrary, factArbitrary } from '../../fakes/ledger-arbitraries';
import { AT, countDraft, draftOf, SAMPLE_BODIES } from '../../fakes/ledger-facts';

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
const made = (fact: Fact): Uint8Array => {
  const bytes = makeFactBytes(fact);
  if (!bytes.ok) throw new Error(bytes.detail);
  return bytes.value;
};
const FACT: Fact = { seq: 3, ...countDraft('pack-1', 24) };
/** SHA-256 of a zero byte and the text below, by coreutils' sha256sum. */
const LEAF = 'ff533da4f02f71d79c08078edbb94273bb882bac759ee95b035479ea8180cbb6';
const TEXT =
  '{"at":"2026-11-25T14:03:11.250+01:00","body":{"count":24,"kind":"counted","noun":"lines","stage":"stage-1"},' +
  '"by":"ines","pack":"pack-1","seq":3,"v":1}';

describe('a fact as bytes', () => {
  it('is canonical JSON with its format version', () => {
    expect(textOf(made(FACT))).toBe(TEXT);
  });

  it.each(Object.values<FactBody>(SAMPLE_BODIES))('$kind comes back as it was', (body) => {
    const fact = { seq: 0, ...draftOf('pack-1', body) };
    expect(parseFactBytes(made(fact))).toEqual({ ok: true, value: fact });
  });

  it('any fact comes back as it was, and its bytes too', () => {
    fc.assert(
      fc.property(factArbitrary, (fact) => {
        const bytes = made(fact);
        const parsed = parseFactBytes(bytes);
        expect(parsed).toEqual({ ok: true, value: fact });
        if (parsed.ok) expect(made(parsed.value)).toEqual(bytes);
      }),
      { numRuns: 500 },
    );
  });

  it('two facts that differ never have the same bytes', () => {
    fc.assert(
      fc.property(bodyArbitrary, bodyArbitrary, (a, b) => {
        const same = textOf(made({ ...FACT, body: a })) === textOf(made({ ...FACT, body: b }));
        expect(same).toBe(JSON.stringify(a) === JSON.stringify(b));
      }),
    );
  });
});

describe('bytes that are no fact are refused, never repaired', () => {
  const change = (from: string, to: string): string => {
    if (!TEXT.includes(from)) throw new Error(`no ${from} in the text`);
    return TEXT.replace(from, to);
  };
  const CASES: readonly (readonly [string, string, string])[] = [
    ['nothing', '', 'corrupt'],
    ['not JSON', TEXT.slice(0, -1), 'corrupt'],
    ['a list', '[]', 'corrupt'],
    ['null', 'null', 'corrupt'],
    ['no version', change(',"v":1', ''), 'corrupt'],
    ['a version that is a word', change('"v":1', '"v":"2"'), 'corrupt'],
    ['version 0', change('"v":1', '"v":0'), 'corrupt'],
    ['a newer version', change('"v":1', '"v":2'), 'newer'],
    ['an unknown kind', change('"counted"', '"counterfeit"'), 'unknown-kind'],
    ['a kind that is a word of the language', change('"counted"', '"constructor"'), 'unknown-kind'],
    ['a kind that is no text', change('"counted"', '7'), 'corrupt'],
    ['a missing field', change('"count":24,', ''), 'corrupt'],
    ['a field too many', change('"count":24,', '"count":24,"extra":1,'), 'corrupt'],
    ['a field too many outside', change('"v":1', '"v":1,"w":1'), 'corrupt'],
    ['a hidden prototype', change('"body":{', '"body":{"__proto__":{"kind":"signed"},'), 'not-canonical'],
    ['a noun that does not exist', change('"lines"', '"fishes"'), 'corrupt'],
    ['a count below nothing', change('24', '-1'), 'corrupt'],
    ['half a count', change('24', '2.5'), 'corrupt'],
    ['a count too large to be one', change('24', '1000001'), 'corrupt'],
    ['a sequence number beyond counting', change('"seq":3', '"seq":9007199254740993'), 'corrupt'],
    ['no pack', change('"pack-1"', '""'), 'corrupt'],
    ['a time without offset', change('+01:00', ''), 'corrupt'],
    ['a time that cannot be', change('14:03', '25:03'), 'corrupt'],
    ['a month that cannot be', change('2026-11', '2026-13'), 'corrupt'],
    ['white space', `${TEXT} `, 'not-canonical'],
    ['a line end', `${TEXT}\n`, 'not-canonical'],
    ['a byte order mark', `\ufeff${TEXT}`, 'corrupt'],
    ['keys in another order', change('"v":1', '').replace('{"at"', '{"v":1,"at"').replace(',}', '}'), 'not-canonical'],
    ['a key given twice', change('"count":24', '"count":23,"count":24'), 'not-canonical'],
    ['a number spelled otherwise', change('24', '24.0'), 'not-canonical'],
    ['a number with exponent', change('24', '2.4e1'), 'not-canonical'],
    ['a letter escaped without need', change('"ines"', '"\\u0069nes"'), 'not-canonical'],
    ['half a surrogate pair', change('"ines"', '"\\ud83d"'), 'not-canonical'],
    ['a text too long', change('"ines"', `"${'i'.repeat(201)}"`), 'corrupt'],
    ['more than a fact may have', change('"ines"', `"${'i'.repeat(MAX_FACT_BYTES)}"`), 'too-long'],
    ['deep nesting', '['.repeat(300_000), 'corrupt'],
    ['deep but whole nesting', '['.repeat(300_000) + ']'.repeat(300_000), 'corrupt'],
  ];
  it.each(CASES)('%s', (_, text, reason) => {
    expect(parseFactBytes(utf8(text))).toMatchObject({ ok: false, reason });
  });

  it('bytes that are not UTF-8', () => {
    const bytes = made({ ...FACT, by: 'Øster' });
    expect(parseFactBytes(bytes.filter((byte) => byte !== 0xc3))).toMatchObject({ ok: false, reason: 'corrupt' });
  });

  it('any bytes at all: refused or read, never thrown', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => !parseFactBytes(bytes).ok));
    fc.assert(fc.property(fc.json(), (text) => !parseFactBytes(utf8(text)).ok));
  });

  it('one bit changed anywhere is refused or gives other bytes for another fact', () => {
    const bytes = made(FACT);
    for (let bit = 0; bit < bytes.length * 8; bit += 1) {
      const changed = bytes.with(bit >> 3, bytes[bit >> 3]! ^ (1 << (bit & 7)));
      const parsed = parseFactBytes(changed);
      if (parsed.ok) expect(parsed.value).not.toEqual(FACT);
    }
  });
});

describe('sealing a draft', () => {
  it('gives the fact, its bytes and their leaf hash', () => {
    const sealed = sealFact(countDraft('pack-1', 24), 3);
    expect(sealed).toMatchObject({ ok: true, value: { fact: FACT, bytes: utf8(TEXT) } });
    if (sealed.ok) expect(makeHashHex(sealed.value.leaf)).toBe(LEAF);
  });

  it('gives back what will be read later, not what was handed in', () => {
    const body: FactBody = { ...SAMPLE_BODIES.measured, deviation: -0 };
    const sealed = sealFact(draftOf('pack-1', body), 0);
    expect(sealed.ok && sealed.value.fact.body).toEqual({ ...body, deviation: 0 });
  });

  it.each<[string, FactDraft]>([
    [
      'a payload longer than any symbol holds',
      draftOf('p', { ...SAMPLE_BODIES.scanRefused, payload: 'x'.repeat(8_001) }),
    ],
    ['half a surrogate pair', draftOf('p', { ...SAMPLE_BODIES.scanRefused, payload: '\ud83d' })],
    ['not a number', draftOf('p', { ...SAMPLE_BODIES.measured, deviation: Number.NaN })],
    ['endless', draftOf('p', { ...SAMPLE_BODIES.measured, deviation: Number.POSITIVE_INFINITY })],
    ['no pack', draftOf('', SAMPLE_BODIES.stoodBy)],
    ['no time', { ...draftOf('p', SAMPLE_BODIES.stoodBy), at: '' }],
    ['a date alone', { ...draftOf('p', SAMPLE_BODIES.stoodBy), at: AT.slice(0, 10) }],
    ['a field that no reader knows', draftOf('p', { ...SAMPLE_BODIES.stoodBy, more: 1 } as FactBody)],
    ['a kind that no reader knows', draftOf('p', { kind: 'other' } as unknown as FactBody)],
    [
      'a list without end',
      draftOf('p', {
        kind: 'checkInPassed',
        checks: Array.from({ length: 1_001 }, () => ({ label: '', passed: true, detail: '' })),
      }),
    ],
  ])('%s is refused', (_, draft) => {
    expect(sealFact(draft, 0)).toMatchObject({ ok: false, reason: 'unfit' });
  });
});
