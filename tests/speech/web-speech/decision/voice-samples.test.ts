/** One person’s way of saying the phrases: how it is described, and how it eases or hardens the margins. */
import { describe, expect, it } from 'vitest';
import type { Decoding } from '../../../../src/speech/web-speech/engine/decoding';
import { THRESHOLDS } from '../../../../src/speech/web-speech/decision/certainty';
import { featuresOf } from '../../../../src/speech/web-speech/acoustics/cepstra';
import type { VoiceSample } from '../../../../src/speech/web-speech/rescoring/voice-sample';
import { found, fillerCostIn, openFor, PHRASES, rig, segment, silence, speech } from './listener-rig';

describe('a voice that is known', () => {
  const WORDS = ['stand by', 'affirm', 'negative', 'say again', 'stage complete'];
  /** The sound of the tests in five colours; the one of "stand by" is what `speech` sounds like. */
  const colour = (turn: number): Float32Array =>
    featuresOf({
      samples: new Float32Array([
        ...silence(0.1),
        ...speech(0.6).map((_, at) => 0.3 * Math.sin(at * turn)),
        ...silence(0.1),
      ]),
      loud: Array.from({ length: 80 }, (_, at) => at >= 10 && at < 70),
    });
  const samplesFor = (first: string): VoiceSample[] =>
    [first, ...WORDS.filter((words) => words !== first)].map((words, at) => ({
      words,
      features: colour(1.3 - 0.28 * at),
    }));
  const hearWith = (samples: readonly VoiceSample[], sampled = false, ...finds: (Decoding | null)[]) => {
    const made = rig(...(finds.length === 0 ? [found('stand by')] : finds));
    made.listener.know(samples);
    openFor(made.listener, sampled ? { ...PHRASES, isSampled: true } : PHRASES, 0);
    made.hear(silence(0.5), speech(0.6), silence(0.6));
    return made;
  };
  const distance = (made: ReturnType<typeof hearWith>): number => {
    return (fillerCostIn(made.engine.networks[1]) ?? Number.NaN) - lead(made);
  };
  const plain = THRESHOLDS.high.quietFiller;

  /** By how much the phrase must be better than others: what its end costs in the second pass. */
  const lead = ({ engine }: ReturnType<typeof hearWith>): number =>
    Math.max(...(engine.networks[1]?.arcs ?? []).flatMap(({ word, cost }) => (word === null ? [cost] : [])));

  it('makes its own phrase easier and another one dearer', () => {
    const own = hearWith(samplesFor('stand by'));
    const none = hearWith([]);
    const other = hearWith(samplesFor('affirm'));
    expect(lead(none)).toBe(THRESHOLDS.high.quietRival);
    expect(lead(own)).toBeLessThan(lead(none));
    expect(lead(other)).toBeGreaterThan(lead(none));
    expect(distance(own)).toBe(plain);
    expect(distance(other)).toBeLessThan(plain);
  });

  it('changes nothing where none is known any more, or too little', () => {
    const made = hearWith(samplesFor('affirm'));
    made.listener.know([]);
    made.hear(speech(0.6), silence(0.6));
    const [, , , again] = made.engine.networks;
    expect(fillerCostIn(again)).toBe(plain + THRESHOLDS.high.quietRival);
    expect(distance(hearWith([]))).toBe(plain);
    expect(hearWith(samplesFor('affirm').slice(0, 3)).engine.networks).toEqual(hearWith([]).engine.networks);
  });

  it.each([
    ['no path', [null]],
    ['other speech', [found('', true)]],
    ['other speech after a phrase', [found('stand by', true)]],
    [
      'words that leave half of the sound unexplained',
      [{ ...found('stand by'), segments: [segment('<sil>', 0, 60, 0)] }],
    ],
    ['a phrase that another one comes near', [found('stand by'), found('stand down')]],
  ])('obeys no utterance in which the engine finds %s', (_, finds) => {
    expect(hearWith(samplesFor('stand by'), false, ...finds).finals()).toEqual([{ kind: 'notHeard' }]);
  });

  it('has no say in whether a new sample is one', () => {
    expect(distance(hearWith(samplesFor('affirm'), true))).toBe(plain);
  });
});

describe('how a phrase was said', () => {
  const described = (sampled: boolean, ...finds: (Decoding | null)[]) => {
    const { listener, hear, events } = rig(...finds);
    openFor(listener, sampled ? { ...PHRASES, isSampled: true } : PHRASES, 0);
    hear(silence(0.5), speech(0.6), silence(0.6));
    return events.flatMap((event) => (event.kind === 'final' ? [event.features?.length ?? null] : []));
  };

  it('is told where it is asked for, and is as long as what was said', () => {
    const [length] = described(true, found('stand by'));
    expect(length).toBeGreaterThan(13 * 50);
    expect(length).toBeLessThan(13 * 80);
    expect(described(false, found('stand by'))).toEqual([null]);
  });

  it('is not told of what was no phrase', () => {
    expect(described(true, found('', true))).toEqual([null]);
    expect(described(true, found('stand by'), found('say again'))).toEqual([null]);
  });
});
