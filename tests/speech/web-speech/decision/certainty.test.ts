/** How sure the ear must be: surer in noise, surest of short words in noise and of what can do harm. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RISKS } from '../../../../src/speech/web-speech/decision/risk';
import weight from '../../../../src/speech/web-speech/rescoring/weight.json';
import data from '../../../../src/speech/web-speech/decision/certainty.json';
import type { Thresholds } from '../../../../src/speech/web-speech/decision/certainty';
import {
  firstPassFor,
  LOUD_SNR,
  LOUDEST_SNR,
  NOISY_SNR,
  marginsFor,
  QUIET_SNR,
  SUPPORT_MAX,
  supportedBy,
  TEMPLATE_WEIGHT,
  THRESHOLDS,
} from '../../../../src/speech/web-speech/decision/certainty';

const SOME: Thresholds = {
  quietFiller: 100,
  quietRival: 20,
  noisyShortFiller: 80,
  noisyFillerMax: 160,
  noisyRival: 25,
  loudShortFiller: 60,
  loudRival: 45,
};

describe('certainty', () => {
  it('in quiet does not depend on how long the words are', () => {
    expect(marginsFor(SOME, QUIET_SNR, 2)).toEqual(marginsFor(SOME, QUIET_SNR + 30, 12));
  });

  it('in noise asks more of a short word than of a long one', () => {
    const costs = [2, 5, 6, 8, 12].map((phones) => marginsFor(SOME, NOISY_SNR, phones).filler);
    expect(costs).toEqual([80, 80, 100, 140, 160]);
    expect([5, 6, 12].map((phones) => marginsFor(SOME, LOUDEST_SNR, phones).filler)).toEqual([60, 80, 160]);
  });

  it('asks for a greater lead the louder the room is, and no more below the worst', () => {
    const leads = [40, 25, 20, 15, LOUD_SNR, 10, LOUDEST_SNR, 0].map((snr) => marginsFor(SOME, snr, 5).rival);
    expect(leads).toEqual([20, 20, 22.5, 25, 25, 35, 45, 45]);
  });

  it.each(RISKS)('never finds less than it then proves (%s risk)', (risk) => {
    for (let snr = 0; snr <= 40; snr += 1) {
      for (let phones = 0; phones <= 14; phones += 1) {
        expect(firstPassFor(snr).start).toBeGreaterThanOrEqual(marginsFor(THRESHOLDS[risk], snr, phones).filler);
      }
    }
  });
});

describe('the thresholds in force', () => {
  it('are stricter or as strict for what can do harm, at any noise and length', () => {
    for (let snr = 0; snr <= 40; snr += 1) {
      for (const phones of [2, 5, 8, 12]) {
        const [low, high] = [marginsFor(THRESHOLDS.low, snr, phones), marginsFor(THRESHOLDS.high, snr, phones)];
        expect(high.filler).toBeLessThanOrEqual(low.filler);
        expect(high.rival).toBeGreaterThanOrEqual(low.rival);
      }
    }
  });

  it.each(RISKS)('are nowhere laxer than those that were set by hand (%s risk)', (risk) => {
    const high = THRESHOLDS[risk];
    expect(
      [high.quietFiller, high.noisyShortFiller, high.loudShortFiller].map((cost, at) => cost <= [100, 80, 80][at]!),
    ).toEqual([true, true, true]);
    expect([high.quietRival, high.noisyRival, high.loudRival].map((lead, at) => lead >= [20, 25, 25][at]!)).toEqual([
      true,
      true,
      true,
    ]);
    expect(high.noisyFillerMax).toBe(125);
  });

  it('come with where they come from: command, date, split, rule and counts', () => {
    expect(data).toMatchObject({ madeBy: 'npm run calibrate', date: expect.stringMatching(/^\d{4}-\d\d-\d\d$/) });
    for (const risk of RISKS) {
      const all = { commands: 0, wrong: 0, others: 0, falselyAccepted: 0 };
      for (const { commands, wrong, others, falselyAccepted } of Object.values(data.counts[risk])) {
        all.commands += commands;
        all.wrong += wrong;
        all.others += others;
        all.falselyAccepted += falselyAccepted;
        expect(Math.min(commands, others)).toBeGreaterThan(20);
      }
      // The aims: 0.5 % wrong, 0.3 % of other speech taken for a command.
      expect(all.wrong / all.commands).toBeLessThanOrEqual(0.005);
      expect(all.falselyAccepted / all.others).toBeLessThanOrEqual(0.003);
    }
  });
});

describe('what a speaker scorer says', () => {
  const finding = firstPassFor(NOISY_SNR);
  const plain = marginsFor(SOME, NOISY_SNR, 2);

  it('changes nothing where it says nothing', () => {
    expect(supportedBy(plain, 0, finding)).toEqual(plain);
  });

  it('adds to the engine’s margins: for the phrase it eases both, against it it hardens both', () => {
    const [eased, hardened] = [supportedBy(plain, 20, finding), supportedBy(plain, -20, finding)];
    expect([eased.filler, eased.rival]).toEqual([100, 15]);
    expect([hardened.filler, hardened.rival]).toEqual([60, 35]);
  });

  it('however much it is, the phrase must be as good as the search that found it, and lead', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), fc.integer({ min: 0, max: 40 }), (support, snr) => {
        for (const risk of RISKS) {
          const { filler: alone, rival: lead } = supportedBy(
            marginsFor(THRESHOLDS[risk], snr, 3),
            support,
            firstPassFor(snr),
          );
          expect(alone).toBeLessThanOrEqual(firstPassFor(snr).start);
          expect(alone).toBeGreaterThan(0);
          expect(lead).toBeGreaterThan(0);
        }
      }),
    );
    expect(supportedBy(plain, 10 * SUPPORT_MAX, finding)).toEqual(supportedBy(plain, SUPPORT_MAX, finding));
  });

  it('is worth what the data say', () => {
    expect(TEMPLATE_WEIGHT).toBe(weight.weight);
    const errors = (counts: Readonly<Record<string, { wrong: number; falselyAccepted: number }>>): number =>
      Object.values(counts).reduce((sum, one) => sum + one.wrong + one.falselyAccepted, 0);
    expect(errors(weight.counts.with)).toBeLessThanOrEqual(errors(weight.counts.without));
  });
});
