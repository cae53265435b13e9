/** Noise under speech: as loud as is asked, and the same for the same seed. */
import { describe, expect, it } from 'vitest';
import { mixNoise } from '@stowcall/web-speech/calibration/noise';

describe('noise', () => {
  const speech = Float32Array.from({ length: 8_192 }, (_, at) => (at >= 2_048 && at < 4_096 ? 0.5 : 0));
  const noise = Float32Array.from({ length: 20_000 }, (_, at) => (at % 2 === 0 ? 0.1 : -0.1));

  it('stands as many dB under the loudest frame as is asked', () => {
    const mixed = mixNoise(speech, noise, { snr: 12, seed: 1 });
    expect(20 * Math.log10(0.5 / Math.abs(mixed[0] ?? 1))).toBeCloseTo(12, 5);
  });

  it('is the same for the same seed and another for another', () => {
    const ramp = noise.map((sample, at) => sample * at);
    expect(mixNoise(speech, ramp, { snr: 12, seed: 5 })).toEqual(mixNoise(speech, ramp, { snr: 12, seed: 5 }));
    expect(mixNoise(speech, ramp, { snr: 12, seed: 5 })).not.toEqual(mixNoise(speech, ramp, { snr: 12, seed: 6 }));
  });

  it('that is too short is refused', () => {
    expect(() => mixNoise(speech, noise.subarray(0, 100), { snr: 12, seed: 1 })).toThrow('shorter');
  });
});
