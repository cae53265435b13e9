/** How sure the ear must be: surer in noise, surest of short words in noise. */
import { describe, expect, it } from 'vitest';
import { certaintyFor, NOISY_SNR, QUIET_SNR } from '../../../src/voice/web-speech/recognition-certainty';

describe('certainty', () => {
  it('in quiet does not depend on how long the words are', () => {
    expect(certaintyFor(QUIET_SNR, 2)).toEqual(certaintyFor(QUIET_SNR + 30, 12));
  });

  it('in noise asks more of a short word than of a long one', () => {
    const costs = [2, 5, 6, 8, 12].map((phones) => certaintyFor(NOISY_SNR, phones).proving.alone);
    expect(costs).toEqual([80, 80, 100, 140, 160]);
  });

  it('asks for a greater lead the louder the room is, and no more below the worst', () => {
    const leads = [40, 25, 20, 15, 0].map((snr) => certaintyFor(snr, 5).lead);
    expect(leads).toEqual([20, 20, 22.5, 25, 25]);
  });

  it('never finds less than it then proves', () => {
    for (let snr = 0; snr <= 40; snr += 1) {
      for (let phones = 0; phones <= 14; phones += 1) {
        const { finding, proving } = certaintyFor(snr, phones);
        expect(finding.alone).toBeGreaterThanOrEqual(proving.alone);
      }
    }
  });
});
