/** How sure the ear must be: by the risk of a command, by how loud the room is, and by what a path shows. */
import { describe, expect, it } from 'vitest';
import { hiss } from '../../../audio/hiss';
import type { Decoding } from '../../../../src/speech/web-speech/engine/decoding';
import { isPlausible, readDecoding } from '../../../../src/speech/web-speech/engine/decoding';
import { THRESHOLDS } from '../../../../src/speech/web-speech/decision/certainty';
import type { Listened } from '../../../../src/speech/web-speech/decision/listen-for';
import {
  found,
  fillerCostIn,
  openFor,
  OTHERS,
  PHRASES,
  rig,
  rigWith,
  SECOND,
  segment,
  silence,
  speech,
  WANTED,
} from './listener-rig';

describe('risk', () => {
  const thresholds = { high: { ...THRESHOLDS.high, quietFiller: 90 }, low: { ...THRESHOLDS.low, quietFiller: 120 } };
  /** What the filler model costs in the second pass for "stand by": the less, the surer the ear must be. */
  const fillerCost = (lowRisk: readonly string[]): number | undefined => {
    const { engine, listener, hear } = rigWith(thresholds, found('stand by'));
    openFor(listener, { wanted: WANTED, others: OTHERS, rivals: [], lowRisk }, 0);
    hear(silence(0.5), speech(0.6), silence(0.6));
    return fillerCostIn(engine.networks[1]);
  };

  it('decides how sure the ear must be of the phrase that was found', () => {
    expect(fillerCost([])).toBe(90 + thresholds.high.quietRival);
    expect(fillerCost(['#JSGF V1.0; grammar test; public <a> = stand by;'])).toBe(120 + thresholds.low.quietRival);
  });

  it('of another phrase of the vocabulary changes nothing', () => {
    expect(fillerCost(['#JSGF V1.0; grammar test; public <a> = say again;'])).toBe(90 + thresholds.high.quietRival);
  });

  it('that is declared in a grammar which cannot be used is refused with it', () => {
    const { listener } = rig(found('stand by'));
    expect(openFor(listener, { ...PHRASES, lowRisk: ['stand by'] }, 0)).toMatchObject({
      ok: false,
      reason: 'bad-grammar',
    });
  });
});

describe('a loud room', () => {
  const NOISE = 0.05;
  const noise = (seconds: number) => hiss(NOISE, seconds * SECOND, 99);
  const over = (decibels: number) => {
    const tones = [0.12, 0.22, 0.4, 0.7, 1.1];
    const tone = NOISE * Math.sqrt(2 / tones.length) * 10 ** (decibels / 20);
    return noise(0.6).map((sample, at) => tones.reduce((sum, turn) => sum + tone * Math.sin(at * turn), sample));
  };
  const run = (decibels: number, finds: Decoding | null, grammars: Listened<string> = PHRASES) => {
    const made = rig(finds);
    openFor(made.listener, grammars, 0);
    made.hear(noise(1), over(decibels), noise(0.6));
    return made;
  };

  it('is not listened to where speech hardly stands out from it', () => {
    const { finals, engine } = run(1, found('stand by'));
    expect(finals()).toEqual([{ kind: 'notHeard', isTooLoud: true }]);
    expect(engine.decoded).toBe(0);
  });

  it('is the reason given for what is not made out', () => {
    expect(run(9, found('', true)).finals()).toEqual([{ kind: 'notHeard', isTooLoud: true }]);
    expect(run(22, found('', true)).finals()).toEqual([{ kind: 'notHeard' }]);
  });

  it('is no place to learn a voice, though a command would be heard', () => {
    const { finals, events } = run(12, found('stand by'), { ...PHRASES, isSampled: true });
    expect(finals()).toEqual([{ kind: 'notHeard', isTooLoud: true }]);
    expect(events.every((event) => event.kind !== 'final' || event.features === undefined)).toBe(true);
    expect(run(12, found('stand by')).finals()).toEqual([{ kind: 'heard', words: 'stand by' }]);
  });

  it('a fixed phrase is as long as all of it, one with a slot as its longest word', () => {
    const spoken = { ...found('stand by'), segments: [segment('stand', 30, 60, 5), segment('by', 61, 80, 4)] };
    const costWith = (rule: string): number | undefined => {
      const wanted = [`#JSGF V1.0; grammar test; public <a> = ${rule};`];
      const secondPass = run(14, spoken, { wanted, others: [], rivals: [], lowRisk: [] }).engine.networks[2];
      return fillerCostIn(secondPass);
    };
    const [fixed = 0, slot = 0] = [costWith('stand by'), costWith('stand (by | a | b | c | d | e | f)')];
    // Four sounds more, at 20 for each, where the noise is such that all of it counts.
    expect(fixed).toBeGreaterThan(slot + 40);
    expect(fixed).toBeLessThanOrEqual(slot + 80);
  });

  it('may still be heard through', () => {
    expect(run(9, found('stand by')).finals()).toEqual([{ kind: 'heard', words: 'stand by' }]);
  });
});

describe('reading a path', () => {
  const path = (...words: [string, number, number][]) => ({
    segments: words.map(([word, first, last]) => ({ word, first, last, phones: 2 })),
    score: -1,
    frames: 100,
  });

  it('takes pronunciation marks off and leaves pauses and empty steps out', () => {
    const read = readDecoding(
      path(['(NULL)', -1, -1], ['<sil>', 0, 9], ['two', 10, 40], ['inches(2)', 41, 80], ['<sil>', 81, 99]),
    );
    expect(read).toMatchObject({ words: ['two', 'inches'], other: false });
  });

  it('knows the filler model', () => {
    expect(readDecoding(path(['two', 0, 40], ['phone_ah', 41, 99]))).toMatchObject({ words: ['two'], other: true });
  });

  it('is plausible with words of a usual length and quiet pauses, and with no others', () => {
    const loud = Array.from({ length: 300 }, (_, frame) => frame >= 30 && frame < 130);
    const plausible = (...segments: Decoding['segments']) => isPlausible({ ...found('two inches'), segments }, loud);
    const quiet = segment('<sil>', 0, 29, 0);
    expect(plausible(quiet, segment('two', 30, 129, 3), segment('<sil>', 130, 299, 0))).toBe(true);
    expect(plausible(quiet, segment('two', 30, 140, 3), segment('<sil>', 141, 299, 0))).toBe(false);
    expect(plausible(quiet, segment('two', 30, 105, 3), segment('<sil>', 106, 299, 0))).toBe(false);
    expect(plausible(quiet, segment('two', 30, 112, 3), segment('[NOISE]', 113, 299, 0))).toBe(true);
  });

  it('a path that broke down before the end is none', () => {
    expect(readDecoding(path(['two', 0, 60]))).toBeNull();
    expect(readDecoding(path())).toBeNull();
  });
});
