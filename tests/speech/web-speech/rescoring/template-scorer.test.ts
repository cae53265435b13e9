/** The scorer that knows one person's voice, and the sum of several scorers. */
import { describe, expect, it } from 'vitest';
import { summed } from '../../../../src/speech/web-speech/rescoring/speaker-scorer';
import { templateScorerOf } from '../../../../src/speech/web-speech/rescoring/template-scorer';
import type { VoiceSample } from '../../../../src/speech/web-speech/rescoring/voice-sample';
import { SAMPLE_WIDTH } from '../../../../src/speech/web-speech/rescoring/voice-sample';

/** A way of speaking: each number is a different course of the coefficients; `slow` draws it out. */
const said = (kind: number, slow = 1): Float32Array =>
  Float32Array.from({ length: SAMPLE_WIDTH * 40 * slow }, (_, at) => {
    const [frame, place] = [Math.floor(at / SAMPLE_WIDTH) / slow, at % SAMPLE_WIDTH];
    return 3 * Math.sin((frame * (kind + 1) * (place + 1)) / 40 + kind * place);
  });
const WORDS = ['stage complete', 'stand by', 'affirm', 'negative', 'say again'];
const SAMPLES: readonly VoiceSample[] = WORDS.map((words, kind) => ({ words, features: said(kind) }));
const ear = templateScorerOf(SAMPLES);
const score = (kind: number, phrase: string): number => ear?.scores(said(kind, 1.5), [phrase])[0] ?? Number.NaN;

describe('a person’s own samples', () => {
  it.each(WORDS.map((words, kind) => [words, kind] as const))(
    'speak for "%s" when it is said slower',
    (words, kind) => {
      expect(score(kind, words)).toBeGreaterThan(0.3);
    },
  );

  it('speak against every other phrase that was sampled', () => {
    for (const [kind] of WORDS.entries()) {
      for (const other of WORDS.filter((_, place) => place !== kind)) expect(score(kind, other)).toBeLessThan(-0.3);
    }
  });

  it('of a phrase that was sampled twice the nearer one counts', () => {
    const twice = templateScorerOf([...SAMPLES, { words: 'affirm', features: said(7) }]);
    for (const kind of [2, 7]) expect(twice?.scores(said(kind, 1.5), ['affirm'])[0]).toBeGreaterThan(0.3);
  });
});

describe('a phrase that was not sampled', () => {
  it('is no better and no worse than before where no sample clearly fits', () => {
    expect(score(11, 'call inspector')).toBe(0);
  });

  it('is worse where another phrase clearly fits', () => {
    expect(score(2, 'call inspector')).toBeLessThan(-0.1);
  });

  it('is no worse where that one shares a word with it: it may be its other wording', () => {
    expect(score(0, 'the stage is complete')).toBe(0);
  });
});

describe('nothing is said', () => {
  it('with fewer than four phrases, or with samples in which nothing sounds', () => {
    expect(templateScorerOf([])).toBeNull();
    expect(templateScorerOf(SAMPLES.slice(0, 3))).toBeNull();
    expect(templateScorerOf([...SAMPLES.slice(0, 3), { words: 'x', features: new Float32Array(0) }])).toBeNull();
    const same = ['a', 'b'].map((): VoiceSample => ({ words: 'affirm', features: said(1) }));
    expect(templateScorerOf([...SAMPLES.slice(0, 3), ...same])).toBeNull();
  });

  it('about an utterance in which nothing sounds', () => {
    expect(ear?.scores(new Float32Array(0), WORDS)).toEqual(WORDS.map(() => 0));
  });
});

describe('several scorers', () => {
  const fixed = (...scores: number[]) => ({ scores: () => scores });

  it('are added up, each with its weight', () => {
    const both = summed([
      { ear: fixed(1, -2), weight: 10 },
      { ear: fixed(0.5, 4), weight: 2 },
    ]);
    expect(both.scores(new Float32Array(0), ['a', 'b'])).toEqual([11, -12]);
  });

  it('that are none, or weigh nothing, say nothing', () => {
    expect(summed([]).scores(new Float32Array(0), ['a'])).toEqual([0]);
    expect(summed([{ ear: fixed(5), weight: 0 }]).scores(new Float32Array(0), ['a'])).toEqual([0]);
  });
});
