/** Phonetic distance: a metric over phones, and the right order for pairs that ears know. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deletionCost, phoneDistance, PHONES } from '../../../../src/speech/grammar/phones/phone';
import {
  nearestPairs,
  phonesDistance,
  pronounce,
  variantsDistance,
} from '../../../../src/speech/grammar/phones/phrase-distance';
import { known } from './known';

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
      for (const b of PHONES) expect(phoneDistance(a, b)).toBeLessThanOrEqual(deletionCost(a) + deletionCost(b));
  });

  it('runs: nought to itself, symmetric, and no more than all lost', () => {
    fc.assert(
      fc.property(phones, phones, (a, b) => {
        const all = [...a, ...b].reduce((sum, one) => sum + deletionCost(one), 0);
        expect(phonesDistance(a, a)).toBe(0);
        expect(phonesDistance(a, b)).toBeCloseTo(phonesDistance(b, a), 9);
        expect(phonesDistance(a, b)).toBeLessThanOrEqual(all + 1e-9);
      }),
    );
  });

  it('one phone more costs that phone at most', () => {
    fc.assert(
      fc.property(phones, phone, (a, more) => {
        expect(phonesDistance(a, [...a, more])).toBeLessThanOrEqual(deletionCost(more) + 1e-9);
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

describe('phrases', () => {
  const words = known('stow S T OW\neighth EY T TH\neighth(2) EY TH\nfower F OW ER\n');

  it('takes the nearest way to say each', () => {
    const eighth = pronounce('eighth', words);
    expect(eighth.ok && variantsDistance(eighth.value, [['EY', 'TH']])).toBe(0);
  });

  it('refuses a phrase with a word that nobody can say', () => {
    expect(pronounce('stow qwz', words)).toMatchObject({ ok: false, reason: 'no-pronunciation' });
    expect(nearestPairs([{ phrase: 'qwz', of: 1 }], words, () => false)).toMatchObject({ ok: false });
  });

  it('orders pairs, and leaves out those that mean the same', () => {
    const phrases = ['stow', 'eighth', 'fower', 'stow stow'].map((phrase, of) => ({ phrase, of: of % 3 }));
    const pairs = nearestPairs(phrases, words, (a, b) => a.of === b.of);
    if (!pairs.ok) throw new Error(pairs.detail);
    expect(pairs.value).toHaveLength(5);
    expect(pairs.value.map(({ distance }) => distance)).toEqual(
      pairs.value.map(({ distance }) => distance).sort((a, b) => a - b),
    );
  });
});

describe('several ways to say a word', () => {
  const words = known('stow S T OW\nstow(2) S OW\nstow(12) T OW\na(b) AH\nx(2)y AH\n');

  it('give every way to say a phrase, sixteen at most', () => {
    const ways = pronounce('stow a(b)', words);
    expect(ways).toEqual({
      ok: true,
      value: [
        ['S', 'T', 'OW', 'AH'],
        ['S', 'OW', 'AH'],
        ['T', 'OW', 'AH'],
      ],
    });
    const many = pronounce('stow stow stow', words);
    expect(many.ok && many.value.length).toBe(16);
    expect(pronounce('stow qwz', words)).toEqual({
      ok: false,
      reason: 'no-pronunciation',
      detail: '"qwz" has no pronunciation; add it to grammars/pronunciations.txt.',
    });
  });

  it('put the nearest pairs first, each once, and each with its own ways', () => {
    const phrases = ['stow', 'a(b)', 'stow a(b)'].map((phrase, of) => ({ phrase, of }));
    const pairs = nearestPairs(phrases, words, () => false);
    if (!pairs.ok) throw new Error(pairs.detail);
    expect(pairs.value.map(({ a, b }) => [a.of, b.of])).toEqual([
      [0, 2],
      [0, 1],
      [1, 2],
    ]);
    const [near, middle, far] = pairs.value.map(({ distance }) => distance);
    expect(near).toBeCloseTo(0.7, 12);
    // "T OW" from "AH": T is lost, and OW is heard as AH.
    expect(middle).toBeCloseTo(0.7 + phoneDistance('OW', 'AH'), 12);
    // "T OW AH" from "AH": T and OW are lost.
    expect(far).toBeCloseTo(1.7, 12);
  });
});
