/** The code of a printed card, read back by the verifier's own reader, which shares no code with the writer. */
import { base32nopad } from '@scure/base';
import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leafHash } from '../../../src/record/chain/hash';
import { makeCardLine, makePaperText, PAPER_MARK, type PaperInput } from '../../../src/record/chain/paper';
import { readPaper } from '../../../src/record/verify/bytes/read-paper';
import { SAMPLE_RECORD } from '../../fakes/ledger-facts';

const hash = (n: number) => leafHash(Uint8Array.of(n));
const CARD: PaperInput = {
  origin: 'stowcall/loft/Tisch-Süd',
  claim: { index: 41, size: 1_000, leaf: hash(1), root: hash(2), proof: [hash(3), hash(4)] },
  line: 'card; fact 41; packed 2026-11-25',
  signature: { name: 'stowcall/loft/Tisch-Süd', keyId: '00c0ffee', signature: new Uint8Array(64).fill(7) },
};

describe('Base 32 of RFC 4648 section 10, without its padding', () => {
  it.each([
    ['', ''],
    ['f', 'MY'],
    ['fo', 'MZXQ'],
    ['foo', 'MZXW6'],
    ['foob', 'MZXW6YQ'],
    ['fooba', 'MZXW6YTB'],
    ['foobar', 'MZXW6YTBOI'],
  ])('"%s" is "%s"', (text, code) => {
    expect(base32nopad.encode(new TextEncoder().encode(text))).toBe(code);
  });

  it('uses each of its 32 digits for its own value', () => {
    // Five bits count up from 0 to 31: twenty bytes in which every digit stands once.
    const bits = Array.from({ length: 32 }, (_, n) => n.toString(2).padStart(5, '0')).join('');
    const bytes = Uint8Array.from(bits.match(/.{8}/g) ?? [], (byte) => Number.parseInt(byte, 2));
    expect(base32nopad.encode(bytes)).toBe('ABCDEFGHIJKLMNOPQRSTUVWXYZ234567');
  });
});

describe('the code of a card', () => {
  it('gives every part back to the verifier', () => {
    const text = makePaperText(CARD);
    expect(text.startsWith(PAPER_MARK)).toBe(true);
    expect(text).toMatch(/^SCP1[A-Z2-7]+$/);
    expect(readPaper(text)).toEqual({
      origin: CARD.origin,
      size: 1_000,
      seq: 41,
      leaf: CARD.claim.leaf,
      path: CARD.claim.proof,
      line: CARD.line,
      keyId: '00c0ffee',
      signature: CARD.signature.signature,
    });
  });

  it('has the form that is described at its head, byte for byte', () => {
    const [name, line] = [Buffer.from(CARD.origin), Buffer.from(CARD.line)];
    const parts = Buffer.concat([
      Buffer.of(name.length),
      name,
      Buffer.from('0000000003e8000000000029', 'hex'),
      CARD.claim.leaf,
      Buffer.of(2),
      ...CARD.claim.proof,
      Buffer.of(0, line.length),
      line,
      Buffer.from('00c0ffee', 'hex'),
      CARD.signature.signature,
    ]);
    const check = createHash('sha256').update(parts).digest().subarray(0, 2);
    expect(makePaperText(CARD)).toBe(PAPER_MARK + base32nopad.encode(Buffer.concat([parts, check])));
  });

  it('of any journal and any line comes back', () => {
    const input = fc.record({
      size: fc.integer({ min: 1, max: 2 ** 48 - 1 }),
      line: fc.string({ maxLength: 300, unit: 'grapheme' }),
      keyId: fc.stringMatching(/^[0-9a-f]{8}$/),
      proof: fc.array(fc.nat(255).map(hash), { maxLength: 48 }),
    });
    fc.assert(
      fc.property(input, fc.nat(), ({ size, line, keyId, proof }, at) => {
        const index = at % size;
        const claim = { ...CARD.claim, size, index, proof };
        const read = readPaper(makePaperText({ ...CARD, claim, line, signature: { ...CARD.signature, keyId } }));
        expect(read).toMatchObject({ size, seq: index, line, keyId, path: proof });
      }),
      { numRuns: 50 },
    );
  });

  it('with one letter changed anywhere is no code', () => {
    const text = makePaperText(CARD);
    for (let at = 0; at < text.length; at += 1) {
      const other = text.charAt(at) === 'Q' ? 'R' : 'Q';
      expect(readPaper(text.slice(0, at) + other + text.slice(at + 1))).toBeNull();
    }
  });
});

describe('what the form cannot hold is a broken assumption', () => {
  const claim = (change: Partial<PaperInput['claim']>): PaperInput => ({
    ...CARD,
    claim: { ...CARD.claim, ...change },
  });
  const FORM = 'keeps to its form';
  it.each<[string, PaperInput, string]>([
    ['a name of 256 bytes', { ...CARD, origin: 'ü'.repeat(128) }, FORM],
    ['a line of 65,536 bytes', { ...CARD, line: 'x'.repeat(65_536) }, FORM],
    ['a proof of 64 hashes', claim({ proof: Array.from({ length: 64 }, (_, n) => hash(n)) }), FORM],
    ['a leaf that is no hash', claim({ leaf: hash(1).slice(1) }), 'made of hashes'],
    ['a proof with one that is no hash', claim({ proof: [hash(1), hash(2).slice(1)] }), 'made of hashes'],
    ['a signature cut short', { ...CARD, signature: { ...CARD.signature, signature: new Uint8Array(63) } }, '64 bytes'],
    ['a journal beyond six bytes', claim({ size: 2 ** 48 }), 'fits its bytes'],
    ['half a fact', claim({ index: 0.5 }), 'fits its bytes'],
    ['a fact before the first', claim({ index: -1 }), 'fits its bytes'],
  ])('%s', (_, input, belief) => {
    expect(() => makePaperText(input)).toThrow(belief);
  });

  it('and what it can just hold is not', () => {
    expect(makePaperText({ ...CARD, origin: 'x'.repeat(255) }).length).toBeGreaterThan(400);
    expect(makePaperText({ ...CARD, line: 'x'.repeat(65_535) }).length).toBeGreaterThan(100_000);
    const proof = Array.from({ length: 63 }, (_, n) => hash(n));
    expect(readPaper(makePaperText(claim({ proof, size: 2 ** 48 - 1, index: 0 })))).toMatchObject({ path: proof });
  });
});

describe('the line of a card', () => {
  it('says what must not be changed on paper', () => {
    expect(makeCardLine(7, SAMPLE_RECORD)).toBe(
      'card; fact 7; packed 2026-11-25; last 2027-05-24; by QR-118; canopy QH-4471 / bag QB-0219',
    );
  });

  it('is by whoever packed last', () => {
    const packers = [...SAMPLE_RECORD.packers, { name: 'Marek', certificate: 'QR-200' }];
    expect(makeCardLine(7, { ...SAMPLE_RECORD, packers })).toContain('; by QR-200; ');
    expect(makeCardLine(7, { ...SAMPLE_RECORD, packers: [] })).toContain('; by none; ');
  });

  it.each([
    ['a serial with a semicolon cannot pass for the next field', 'A; due 2099-01-01', 'canopy A due 2099-01-01'],
    ['commas, blanks and line ends become one blank', 'A ,\n;B', 'canopy A B'],
    ['blanks at its ends fall away', ' A-1 ', 'canopy A-1'],
    ['a serial of marks alone is none', ';,', 'canopy none'],
  ])('%s', (_, serial, told) => {
    const line = makeCardLine(7, { ...SAMPLE_RECORD, serials: [{ kind: 'canopy', model: 'x', serial }] });
    expect(line.split('; ').at(-1)).toBe(told);
  });

  it('ends after 400 characters', () => {
    const serials = Array.from({ length: 60 }, (_, n) => ({ kind: 'canopy', model: 'x', serial: `QH-${n + 100}` }));
    const line = makeCardLine(7, { ...SAMPLE_RECORD, serials });
    expect(line).toHaveLength(400);
    expect(line.startsWith('card; fact 7; ')).toBe(true);
  });
});
