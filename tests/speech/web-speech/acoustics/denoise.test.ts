/** Noise taken out: speech stays, noise goes, and nothing else changes. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hiss } from '../../../audio/hiss';
import { POINTS, transform, untransform } from '../../../../src/speech/web-speech/acoustics/fourier';
import { Bands, BANDS } from '../../../../src/speech/web-speech/acoustics/bands';
import { STEP } from '../../../../src/speech/web-speech/acoustics/frames';
import { denoise } from '../../../../src/speech/web-speech/acoustics/denoise';
import { NoiseFloor } from '../../../../src/speech/web-speech/acoustics/noise-floor';

const RATE = 16_000;
const tone = (hertz: number, level: number, length: number) =>
  Float32Array.from({ length }, (_, at) => level * Math.sin((2 * Math.PI * hertz * at) / RATE));

const noiseOf = (level: number, length: number) => hiss(level, length, 7);
const power = (samples: Float32Array) => samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length;

function roomOf(samples: Float32Array): NoiseFloor {
  const bands = new Bands();
  const room = new NoiseFloor();
  for (let at = 0; at + STEP <= samples.length; at += STEP) room.learn(bands.step(samples.subarray(at, at + STEP)));
  return room;
}

describe('the transform', () => {
  it('agrees with the sum that defines it', () => {
    const real = Float64Array.from({ length: POINTS }, (_, at) => Math.sin(at * at));
    const imaginary = new Float64Array(POINTS);
    const expected = (point: number) => {
      let [re, im] = [0, 0];
      for (let at = 0; at < POINTS; at += 1) {
        re += Math.sin(at * at) * Math.cos((2 * Math.PI * point * at) / POINTS);
        im -= Math.sin(at * at) * Math.sin((2 * Math.PI * point * at) / POINTS);
      }
      return [re, im] as const;
    };
    transform(real, imaginary);
    for (const point of [0, 1, 37, 255, 256, 511]) {
      const [re, im] = expected(point);
      expect(real[point]).toBeCloseTo(re, 8);
      expect(imaginary[point]).toBeCloseTo(im, 8);
    }
  });

  it('is undone', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: POINTS, maxLength: POINTS }),
        (x) => {
          const real = Float64Array.from(x);
          const imaginary = new Float64Array(POINTS);
          transform(real, imaginary);
          untransform(real, imaginary);
          for (const [at, value] of x.entries()) expect(real[at]).toBeCloseTo(value, 10);
        },
      ),
      { numRuns: 10 },
    );
  });
});

describe('bands', () => {
  it('white noise has its own loudness in every band, in the mean', () => {
    const bands = new Bands();
    const noise = noiseOf(0.1, 300 * STEP);
    const sums = new Float64Array(BANDS);
    for (let at = 0; at < noise.length; at += STEP) {
      bands
        .step(noise.subarray(at, at + STEP))
        .levels.forEach((level, band) => (sums[band] = (sums[band] ?? 0) + level));
    }
    for (const sum of sums) expect(Math.abs(sum / 300 + 20)).toBeLessThan(3.5);
  });

  it('a tone stands out in its band alone', () => {
    const bands = new Bands();
    for (let turn = 0; turn < 4; turn += 1) bands.step(tone(1000, 0.1, STEP));
    const levels = [...bands.step(tone(1000, 0.1, STEP)).levels];
    const sorted = [...levels].sort((a, b) => b - a);
    expect((sorted[0] ?? 0) - (sorted[4] ?? 0)).toBeGreaterThan(20);
  });
});

describe('the room', () => {
  it('knows nothing at first, and then nothing that is like it stands out', () => {
    const bands = new Bands();
    const room = new NoiseFloor();
    expect(room.prominence(bands.step(noiseOf(0.1, STEP)).levels)).toBe(0);
    const known = roomOf(noiseOf(0.01, 100 * STEP));
    const same = new Bands();
    for (let turn = 0; turn < 3; turn += 1) same.step(noiseOf(0.01, STEP));
    expect(known.prominence(same.step(noiseOf(0.01, STEP)).levels)).toBeLessThan(8);
    expect(known.prominence(bands.step(tone(500, 0.2, STEP)).levels)).toBeGreaterThan(8);
  });
});

describe('denoising', () => {
  const length = 2 * RATE;
  const noise = noiseOf(0.02, length);
  const room = roomOf(noise);

  it('leaves hardly more than a quarter of the level of noise alone', () => {
    const left = denoise(noise.subarray(0, RATE), room.noise);
    expect(10 * Math.log10(power(left) / power(noise))).toBeLessThan(-11);
  });

  it('leaves a tone in the noise as loud as it was', () => {
    const loud = tone(700, 0.3, RATE);
    const left = denoise(
      loud.map((sample, at) => sample + (noise[at] ?? 0)),
      room.noise,
    );
    const middle = (samples: Float32Array) => samples.subarray(4_000, 12_000);
    expect(10 * Math.log10(power(middle(left)) / power(middle(loud)))).toBeCloseTo(0, 0);
  });

  it('changes nothing where there is no noise', () => {
    const speech = tone(440, 0.5, 8_000);
    const left = denoise(speech, new Float32Array(POINTS / 2 + 1));
    expect(left).toHaveLength(8_000);
    for (let at = 600; at < 7_400; at += 97) expect(left[at]).toBeCloseTo(speech[at] ?? 0, 3);
  });
});
