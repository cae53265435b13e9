/** The table of phones, row by row: manner and voice of each consonant, begin and end of each vowel, worked by hand. */
import { describe, expect, it } from 'vitest';
import { isPhone, deletionCost, phoneDistance, PHONES } from '../../../../src/speech/grammar/phones/phone';
import { phonesDistance, variantsDistance } from '../../../../src/speech/grammar/phones/phrase-distance';

const VOWELS = 'AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW'.split(' ');

describe('consonants', () => {
  /** 0.1 for any change, 0.2 for voice, 0.4 of the way between the places. */
  it.each([
    ['P', 'B', 0.3, 'voice'],
    ['T', 'D', 0.3, 'voice'],
    ['K', 'G', 0.3, 'voice'],
    ['CH', 'JH', 0.3, 'voice'],
    ['F', 'V', 0.3, 'voice'],
    ['TH', 'DH', 0.3, 'voice'],
    ['S', 'Z', 0.3, 'voice'],
    ['SH', 'ZH', 0.3, 'voice'],
    ['P', 'T', 0.1 + 0.16, 'place'],
    ['T', 'K', 0.1 + 0.16, 'place'],
    ['F', 'TH', 0.1 + 0.06, 'place'],
    ['TH', 'S', 0.1 + 0.06, 'place'],
    ['S', 'SH', 0.1 + 0.04, 'place'],
    ['SH', 'HH', 0.1 + 0.2, 'place'],
    ['M', 'N', 0.1 + 0.16, 'place'],
    ['N', 'NG', 0.1 + 0.16, 'place'],
    ['L', 'R', 0.1 + 0.06, 'place'],
    ['W', 'Y', 0.1 + 0.24, 'place'],
    ['CH', 'T', 0.1 + 0.25 + 0.04, 'affricate and stop'],
    ['CH', 'SH', 0.1 + 0.25, 'affricate and fricative'],
    ['S', 'T', 0.1 + 0.4, 'fricative and stop'],
    ['M', 'B', 0.1 + 0.5, 'nasal and stop'],
    ['N', 'L', 0.1 + 0.45, 'liquid and nasal'],
    ['R', 'Y', 0.1 + 0.3 + 0.04, 'glide and liquid'],
    ['V', 'M', 0.1 + 0.6 + 0.04, 'manners that are not near'],
    ['W', 'V', 0.1 + 0.6 + 0.02, 'manners that are not near'],
    ['HH', 'M', 1, 'never more than one'],
  ])('%s and %s are %d apart (%s)', (a, b, distance) => {
    expect(phoneDistance(a, b)).toBeCloseTo(distance, 12);
    expect(phoneDistance(b, a)).toBeCloseTo(distance, 12);
  });
});

describe('vowels', () => {
  /** 0.2 for any change, and 0.8 of the way between their begins and their ends, half each. */
  it.each([
    ['IH', 'IY', 0.2 + 0.8 * Math.hypot(0.2, 0.15)],
    ['EH', 'AE', 0.2 + 0.8 * 0.25],
    ['EH', 'AH', 0.2 + 0.8 * 0.45],
    ['ER', 'AH', 0.2 + 0.8 * Math.hypot(0.1, 0.1)],
    ['AA', 'AO', 0.2 + 0.8 * Math.hypot(0.3, 0.2)],
    ['UH', 'UW', 0.2 + 0.8 * Math.hypot(0.25, 0.1)],
    ['AY', 'AW', 0.2 + 0.4 * 0.75],
    ['EY', 'AY', 0.2 + 0.4 * (Math.hypot(0.5, 0.4) + Math.hypot(0.05, 0.05))],
    ['OY', 'AY', 0.2 + 0.4 * Math.hypot(0.35, 0.5)],
    ['OW', 'AW', 0.2 + 0.4 * Math.hypot(0.5, 0.3)],
    ['IY', 'AA', 1],
  ])('%s and %s are %d apart', (a, b, distance) => {
    expect(phoneDistance(a, b)).toBeCloseTo(distance, 12);
  });

  it('each lies somewhere, and none where another does', () => {
    for (const a of VOWELS)
      for (const b of VOWELS) {
        if (a === b) continue;
        expect(phoneDistance(a, b)).toBeGreaterThan(0.2);
        expect(phoneDistance(a, b)).toBeLessThanOrEqual(1);
      }
  });
});

describe('what it costs to lose a phone', () => {
  it('a whole vowel, less for those that speech reduces, less for a breath', () => {
    const least: Readonly<Record<string, number>> = { AH: 0.7, IH: 0.7, HH: 0.4 };
    for (const phone of PHONES)
      expect([phone, deletionCost(phone)]).toEqual([phone, least[phone] ?? (VOWELS.includes(phone) ? 1 : 0.7)]);
  });

  it('a vowel for a consonant costs both', () => {
    expect(phoneDistance('AA', 'B')).toBeCloseTo(1.7, 12);
    expect(phoneDistance('HH', 'AH')).toBeCloseTo(1.1, 12);
  });

  it('39 phones, in order, and nothing else is one', () => {
    expect(PHONES).toEqual([...PHONES].sort());
    expect(PHONES).toHaveLength(39);
    for (const phone of PHONES) expect(isPhone(phone)).toBe(true);
    for (const none of ['', 'QX', 'aa', 'AA1', 'SIL']) expect(isPhone(none)).toBe(false);
  });
});

describe('runs of phones, worked by hand', () => {
  const run = (text: string): string[] => text.split(' ').filter((phone) => phone !== '');
  it.each([
    ['', '', 0],
    ['', 'B AA', 1.7],
    ['B AA', '', 1.7],
    ['P AA', 'B AA', 0.3],
    ['S T OW', 'T OW', 0.7],
    ['T OW', 'S T OW', 0.7],
    ['T OW', 'OW T', 1.4],
    ['HH AA', 'AA', 0.4],
    ['AA B', 'AA P S', 0.3 + 0.7],
  ])('"%s" and "%s" are %d apart', (a, b, distance) => {
    expect(phonesDistance(run(a), run(b))).toBeCloseTo(distance, 12);
  });

  it('of several ways the nearest two count', () => {
    expect(variantsDistance([run('B AA'), run('P AA')], [run('S T OW'), run('P AA S')])).toBeCloseTo(0.7, 12);
  });
});
