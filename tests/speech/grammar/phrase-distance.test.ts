/** Phonetic distance: a metric over phones, and the right order for pairs that ears know. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lossOf, phoneDistance, PHONES } from '../../../src/speech/grammar/phones/phone';
import {
  nearestPairs,
  parsePronunciations,
  phonesDistance,
  pronounce,
  waysDistance,
} from '../../../src/speech/grammar/phones/phrase-distance';

const phone = fc.constantFrom(...PHONES);
const phones = fc.array(phone, { maxLength: 8 });

describe('the distance of phones and of runs of phones', () => {
  it('has all 39 phones of the recogniser', () => {
    expect(PHONES).toHaveLength(39);
  });

  it('is nought only between equals, and the same both ways', () => {
    for (const a of PHONES)
      for (const b of PHONES) {
        expect(phoneDistance(a, b)).toBeCloseTo(phoneDistance(b, a), 12);
        if (a === b) expect(phoneDistance(a, b)).toBe(0);
        else expect(phoneDistance(a, b)).toBeGreaterThan(0.05);
      }
  });

  it('never costs more than losing both phones', () => {
    for (const a of PHONES)
      for (const b of PHONES) expect(phoneDistance(a, b)).toBeLessThanOrEqual(lossOf(a) + lossOf(b));
  });

  it('runs: nought to itself, symmetric, and no more than all lost', () => {
    fc.assert(
      fc.property(phones, phones, (a, b) => {
        const all = [...a, ...b].reduce((sum, one) => sum + lossOf(one), 0);
        expect(phonesDistance(a, a)).toBe(0);
        expect(phonesDistance(a, b)).toBeCloseTo(phonesDistance(b, a), 9);
        expect(phonesDistance(a, b)).toBeLessThanOrEqual(all + 1e-9);
      }),
    );
  });

  it('one phone more costs that phone at most', () => {
    fc.assert(
      fc.property(phones, phone, (a, more) => {
        expect(phonesDistance(a, [...a, more])).toBeLessThanOrEqual(lossOf(more) + 1e-9);
      }),
    );
  });

  it.each([
    // Likeness of classes: common phonetic knowledge, no source for the figures.
    ['voicing alone', 'P', 'B', 'P', 'M'],
    ['place alone', 'T', 'K', 'T', 'L'],
    ['near vowels', 'IH', 'IY', 'IH', 'AA'],
    ['near fricatives', 'S', 'SH', 'S', 'N'],
    ['nasals', 'M', 'N', 'M', 'S'],
  ])('%s is nearer', (...[, a, near, same, far]) => {
    expect(phoneDistance(a, near)).toBeLessThan(phoneDistance(same, far));
  });
});

describe('pronunciations', () => {
  const read = parsePronunciations(
    ';;; remark\nstow S T OW\neighth EY T TH\neighth(2) EY TH\n',
    '# more\nfower F OW ER\n',
  );
  const known = read.ok ? read.value : new Map();

  it('reads several texts, remarks, and second ways', () => {
    expect(known.get('stow')).toEqual([['S', 'T', 'OW']]);
    expect(known.get('eighth')).toHaveLength(2);
    expect(known.get('fower')).toHaveLength(1);
  });

  it.each([
    ['a phone that is none', 'stow S T QX', 'Line 1, "stow", has "QX"'],
    ['a word without phones', 'a AH\nstow', 'Line 2, "stow", has no phones'],
  ])('refuses %s', (...[, text, detail]) => {
    const bad = parsePronunciations(text);
    expect(bad).toMatchObject({ ok: false, reason: 'bad-pronunciation' });
    expect(bad.ok ? '' : bad.detail).toContain(detail);
  });

  it('takes the nearest way to say each', () => {
    const eighth = pronounce('eighth', known);
    expect(eighth.ok && waysDistance(eighth.value, [['EY', 'TH']])).toBe(0);
  });

  it('refuses a phrase with a word that nobody can say', () => {
    expect(pronounce('stow qwz', known)).toMatchObject({ ok: false, reason: 'no-pronunciation' });
    expect(nearestPairs([{ phrase: 'qwz', of: 1 }], known, () => false)).toMatchObject({ ok: false });
  });

  it('orders pairs, and leaves out those that mean the same', () => {
    const phrases = ['stow', 'eighth', 'fower', 'stow stow'].map((phrase, of) => ({ phrase, of: of % 3 }));
    const pairs = nearestPairs(phrases, known, (a, b) => a.of === b.of);
    if (!pairs.ok) throw new Error(pairs.detail);
    expect(pairs.value).toHaveLength(5);
    expect(pairs.value.map(({ distance }) => distance)).toEqual(
      pairs.value.map(({ distance }) => distance).sort((a, b) => a - b),
    );
  });
});
