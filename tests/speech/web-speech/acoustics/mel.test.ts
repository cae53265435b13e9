/** The mel scale and the cosine transform against published values and formulas. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cosineTransform, filterBank, hertzOf, melOf } from '../../../../src/speech/web-speech/acoustics/mel';

describe('the mel scale', () => {
  it('has 1000 mels at 1000 Hz, as its makers fixed it (Stevens, Volkmann and Newman, JASA 8, 1937, 185-190)', () => {
    expect(melOf(0)).toBe(0);
    expect(melOf(1000)).toBeCloseTo(1000, 1);
  });

  it('is 1127 times the natural logarithm (HTK Book 3.4, section 5.4, in its code)', () => {
    for (const hertz of [60, 110, 440, 1600, 7000, 11_025]) {
      expect(melOf(hertz) / (1127 * Math.log(1 + hertz / 700))).toBeCloseTo(1, 4);
    }
  });

  it('goes back to the same frequency', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 8000, noNaN: true }), (hertz) => {
        expect(hertzOf(melOf(hertz))).toBeCloseTo(hertz, 6);
      }),
    );
  });
});

describe('the filter bank', () => {
  const bank = filterBank({ lowest: 100, highest: 7000, filters: 26, points: 512, rate: 16_000 });

  it('has triangles that overlap by half: between the first and the last middle each tone counts once in all', () => {
    const sums = new Float64Array(257);
    for (const { first, weights } of bank) {
      for (const [at, weight] of weights.entries()) sums[first + at] = (sums[first + at] ?? 0) + weight;
    }
    // 7000 Hz is 2844 mels and 100 Hz is 150: a 27th of the way between is 99.7 mels.
    const [low, high] = [hertzOf(melOf(100) + 100), hertzOf(melOf(7000) - 100)];
    for (let point = Math.ceil((low / 16_000) * 512); point <= Math.floor((high / 16_000) * 512); point += 1) {
      expect(sums[point]).toBeCloseTo(1, 10);
    }
    expect([sums[2], sums[226]]).toEqual([0, 0]);
  });

  it('hears a tone in the filter whose middle it is', () => {
    const middle = hertzOf(melOf(100) + ((melOf(7000) - melOf(100)) * 14) / 27);
    const point = Math.round((middle / 16_000) * 512);
    const weights = bank.map((filter) => filter.weights[point - filter.first] ?? 0);
    expect(weights.indexOf(Math.max(...weights))).toBe(13);
  });
});

describe('the cosine transform', () => {
  it('of the same value everywhere is in the first coefficient alone, with sqrt(2 N) of it', () => {
    const [first = 0, ...rest] = cosineTransform(new Array<number>(26).fill(3), 13);
    expect(first).toBeCloseTo(3 * Math.sqrt(2 * 26), 10);
    for (const value of rest) expect(value).toBeCloseTo(0, 10);
  });

  it('of one of its own waves is in that coefficient alone, with sqrt(N / 2)', () => {
    for (const order of [1, 5, 12]) {
      const wave = Array.from({ length: 26 }, (_, at) => Math.cos((Math.PI * order * (at + 0.5)) / 26));
      for (const [place, value] of cosineTransform(wave, 13).entries()) {
        expect(value).toBeCloseTo(place === order ? Math.sqrt(13) : 0, 10);
      }
    }
  });

  it('keeps the length of a vector when nothing is left out and the first counts for half of its square', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 13, maxLength: 13 }),
        (values) => {
          const [first = 0, ...rest] = cosineTransform(values, 13);
          const length = first ** 2 / 2 + rest.reduce((sum, value) => sum + value ** 2, 0);
          expect(length).toBeCloseTo(
            values.reduce((sum, value) => sum + value ** 2, 0),
            6,
          );
        },
      ),
    );
  });
});
