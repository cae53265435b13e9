/** What counts as a voice sample, and what is refused. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FRAMES_MAX, parseVoiceSample, WORDS_MAX } from '../../../../src/speech/web-speech/rescoring/parse-sample';
import { SAMPLE_WIDTH } from '../../../../src/speech/web-speech/rescoring/voice-sample';

const features = (frames: number): Float32Array => new Float32Array(frames * SAMPLE_WIDTH);

describe('a voice sample', () => {
  it.each([1, 2, FRAMES_MAX])('of %d frames is taken as it is', (frames) => {
    const sample = { words: 'stand by', features: features(frames) };
    expect(parseVoiceSample(sample)).toEqual({ ok: true, value: sample });
  });

  it.each([
    ['nothing', null],
    ['a text', 'stand by'],
    ['no words', { features: features(1) }],
    ['blank words', { words: '  ', features: features(1) }],
    ['words that are too long', { words: 'a'.repeat(WORDS_MAX + 1), features: features(1) }],
    ['no features', { words: 'stand by' }],
    ['features of another kind', { words: 'stand by', features: [...features(1)] }],
    ['no frame', { words: 'stand by', features: features(0) }],
    ['half a frame', { words: 'stand by', features: new Float32Array(SAMPLE_WIDTH + 1) }],
    ['too many frames', { words: 'stand by', features: features(FRAMES_MAX + 1) }],
    ['something that is no number', { words: 'stand by', features: features(2).fill(Number.NaN, 3, 4) }],
    ['something endless', { words: 'stand by', features: features(2).fill(Number.POSITIVE_INFINITY, 3, 4) }],
  ])('%s is none', (_, value) => {
    expect(parseVoiceSample(value)).toMatchObject({ ok: false, reason: 'not-a-sample' });
  });

  it('never throws, whatever comes', () => {
    fc.assert(
      fc.property(fc.anything(), (value) => {
        const sample = parseVoiceSample(value);
        expect(sample.ok || sample.detail.endsWith('.')).toBe(true);
      }),
    );
  });
});
