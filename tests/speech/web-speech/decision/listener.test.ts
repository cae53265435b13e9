/** The listener over an engine that is told what to find: what is told, what is dropped, and when. */
import { describe, expect, it } from 'vitest';
import { hiss } from '../../../audio/hiss';
import type { Decoding } from '../../../../src/speech/web-speech/engine/decoding';
import { isPlausible, readDecoding } from '../../../../src/speech/web-speech/engine/decoding';
import { THRESHOLDS } from '../../../../src/speech/web-speech/decision/certainty';
import type { Listened } from '../../../../src/speech/web-speech/decision/listen-for';
import type { ListenerEvent } from '../../../../src/speech/web-speech/decision/listener';
import { RecognitionListener } from '../../../../src/speech/web-speech/decision/listener';
import { featuresOf } from '../../../../src/speech/web-speech/acoustics/cepstra';
import type { VoiceSample } from '../../../../src/speech/web-speech/rescoring/voice-sample';
import {
  FakeEngine,
  found,
  loopCostIn,
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

describe('a command', () => {
  it('is told in order, and decided before its pause is over', () => {
    const { listener, hear, events, engine } = rig(found('stand by'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.6), silence(0.35));
    expect(engine.decoded).toBe(2);
    expect(events.map(({ kind }) => kind)).toEqual(['soundStart', 'speechStart', 'interim']);
    hear(silence(0.3));
    expect(engine.decoded).toBe(2);
    expect(events.map(({ kind }) => kind).slice(3)).toEqual(['speechEnd', 'soundEnd', 'final']);
    expect(events.at(-1)).toMatchObject({ verdict: { kind: 'heard', words: 'stand by' } });
  });

  it('that goes on after a short pause is decided as a whole', () => {
    const { listener, hear, finals, engine } = rig(found('stand by'), found('stand by'), found('say again'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.4), silence(0.32), speech(0.4), silence(0.6));
    expect(engine.decoded).toBe(4);
    expect(finals()).toEqual([{ kind: 'heard', words: 'say again' }]);
  });

  it('is looked at twice, the second time with its own phrase made dearer, and the next one as if it were the first', () => {
    const { listener, hear, engine } = rig(found('stand by'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.6), silence(0.6));
    const [before, second, after] = engine.networks;
    expect(engine.networks).toHaveLength(3);
    expect(second?.start).not.toBe(before?.start);
    expect(after).toEqual(before);
  });

  it('is decided at once when the page says stop', () => {
    const { listener, hear, finals } = rig(found('stand by'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.6));
    listener.finish();
    expect(finals()).toEqual([{ kind: 'heard', words: 'stand by' }]);
    hear(speech(0.6), silence(0.6));
    expect(finals()).toHaveLength(1);
  });
});

describe('what is not heard', () => {
  it.each([
    ['no path', [null]],
    ['other speech', [found('', true)]],
    ['other speech after a phrase', [found('stand by', true)]],
    ['only a pause', [found('')]],
    ['a phrase that is known but not listened for', [found('stand down')]],
    ['a phrase that one of those comes near', [found('stand by'), found('stand down')]],
    ['a phrase that other speech comes near', [found('stand by'), found('', true)]],
    ['words that nobody says so slowly', [{ ...found('stand by'), segments: [segment('stand', 20, 200, 5)] }]],
    [
      'words that leave half of the sound unexplained',
      [{ ...found('stand by'), segments: [segment('<sil>', 0, 60, 0)] }],
    ],
    ['a phrase that has no path the second time', [found('stand by'), null]],
  ])('%s', (_, finds) => {
    const { listener, hear, finals } = rig(...finds);
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.6), silence(0.6));
    expect(finals()).toEqual([{ kind: 'notHeard' }]);
  });

  it('two phrases that are near become a question', () => {
    const { listener, hear, finals } = rig(found('stand by'), found('say again'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.6), silence(0.6));
    expect(finals()).toEqual([{ kind: 'ambiguous', candidates: ['stand by', 'say again'] }]);
  });

  it('what sounds before the ear is open, also in one block with what comes after', () => {
    const { listener, hear, finals, events } = rig(found('stand by'));
    openFor(listener, PHRASES, SECOND + 100);
    hear(silence(0.2), speech(0.8));
    expect(events).toEqual([]);
    hear(silence(1));
    expect(finals()).toEqual([]);
  });

  it('what sounds while the ear is closed, and the rest of it after it opens', () => {
    const { listener, hear, events } = rig(found('stand by'));
    hear(silence(0.5), speech(0.6));
    openFor(listener, PHRASES, 0);
    listener.close();
    hear(speech(0.6), silence(0.6));
    expect(events).toEqual([]);
  });

  it('what was begun under another vocabulary', () => {
    const { listener, hear, finals } = rig(found('stand by'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.6));
    openFor(listener, PHRASES, 1.1 * SECOND);
    hear(silence(1));
    expect(finals()).toEqual([]);
  });

  it('the rest of what began before the ear was open, but the next that is said whole', () => {
    const { listener, hear, finals } = rig(found('stand by'));
    hear(silence(0.5));
    openFor(listener, PHRASES, 0.5 * SECOND);
    hear(silence(0.5));
    openFor(listener, PHRASES, SECOND);
    hear(speech(0.6), silence(0.6));
    expect(finals()).toEqual([{ kind: 'notHeard' }]);
    hear(speech(0.6), silence(0.6));
    expect(finals()[1]).toEqual({ kind: 'heard', words: 'stand by' });
  });

  it('what goes on after a gap between two words at which the ear was opened, but who answers as soon after silence', () => {
    const { listener, hear, finals } = rig(found('stand by'));
    openFor(listener, PHRASES, 0);
    hear(silence(1));
    openFor(listener, PHRASES, 1.15 * SECOND);
    hear(speech(0.1), silence(0.11), speech(0.6), silence(0.6));
    expect(finals()).toEqual([{ kind: 'notHeard' }]);
    const next = rig(found('stand by'));
    openFor(next.listener, PHRASES, 0);
    next.hear(silence(1));
    openFor(next.listener, PHRASES, 1.15 * SECOND);
    next.hear(silence(0.21), speech(0.6), silence(0.6));
    expect(next.finals()).toEqual([{ kind: 'heard', words: 'stand by' }]);
  });

  it('a command with a hole in it', () => {
    const { listener, hear, finals, skip } = rig(found('stand by'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.4));
    skip(800);
    hear(speech(0.02), silence(1));
    expect(finals()).toEqual([{ kind: 'notHeard' }]);
  });

  it('a knock, which is not even answered', () => {
    const { listener, hear, finals, engine } = rig(found('stand by'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.06), silence(1));
    expect(finals()).toEqual([]);
    expect(engine.decoded).toBe(0);
  });
});

describe('risk', () => {
  const thresholds = { high: { ...THRESHOLDS.high, quietAlone: 90 }, low: { ...THRESHOLDS.low, quietAlone: 120 } };
  /** What the loop costs in the second search for "stand by": the less, the surer the ear must be. */
  const loopCost = (lowRisk: readonly string[]): number | undefined => {
    const { engine, listener, hear } = rigWith(thresholds, found('stand by'));
    openFor(listener, { wanted: WANTED, others: OTHERS, rivals: [], lowRisk }, 0);
    hear(silence(0.5), speech(0.6), silence(0.6));
    return loopCostIn(engine.networks[1]);
  };

  it('decides how sure the ear must be of the phrase that was found', () => {
    expect(loopCost([])).toBe(90 + thresholds.high.quietLead);
    expect(loopCost(['#JSGF V1.0; grammar test; public <a> = stand by;'])).toBe(120 + thresholds.low.quietLead);
  });

  it('of another phrase of the vocabulary changes nothing', () => {
    expect(loopCost(['#JSGF V1.0; grammar test; public <a> = say again;'])).toBe(90 + thresholds.high.quietLead);
  });

  it('that is declared in a grammar which cannot be used is refused with it', () => {
    const { listener } = rig(found('stand by'));
    expect(openFor(listener, { ...PHRASES, lowRisk: ['stand by'] }, 0)).toMatchObject({
      ok: false,
      reason: 'bad-grammar',
    });
  });
});

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
    return (loopCostIn(made.engine.networks[1]) ?? Number.NaN) - lead(made);
  };
  const plain = THRESHOLDS.high.quietAlone;

  /** By how much the phrase must lead: what its end costs in the second search. */
  const lead = ({ engine }: ReturnType<typeof hearWith>): number =>
    Math.max(...(engine.networks[1]?.arcs ?? []).flatMap(({ word, cost }) => (word === null ? [cost] : [])));

  it('makes its own phrase easier and another one dearer', () => {
    const own = hearWith(samplesFor('stand by'));
    const none = hearWith([]);
    const other = hearWith(samplesFor('affirm'));
    expect(lead(none)).toBe(THRESHOLDS.high.quietLead);
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
    expect(loopCostIn(again)).toBe(plain + THRESHOLDS.high.quietLead);
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
      const proof = run(14, spoken, { wanted, others: [], rivals: [], lowRisk: [] }).engine.networks[2];
      return loopCostIn(proof);
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

describe('grammars that cannot be used', () => {
  it.each([
    ['a word without pronunciation', '#JSGF V1.0; grammar test; public <a> = flumph;', 'unknown-word'],
    ['a text that is no grammar', 'stand by', 'bad-grammar'],
    ['a grammar of silence', '#JSGF V1.0; grammar test; public <a> = <NULL>;', 'bad-grammar'],
  ])('%s is refused and nothing is heard', (_, text, reason) => {
    const engine = new FakeEngine([found('stand by')], 'flumph');
    const events: ListenerEvent[] = [];
    const listener = new RecognitionListener(engine, (event) => events.push(event));
    expect(openFor(listener, PHRASES, 0).ok).toBe(true);
    expect(openFor(listener, { wanted: [text], others: [], rivals: [], lowRisk: [] }, 0)).toMatchObject({
      ok: false,
      reason,
    });
    for (let at = 0; at < 2 * SECOND; at += 320) {
      listener.push({ at, samples: at < SECOND ? speech(0.02) : silence(0.02) });
    }
    expect(events).toEqual([]);
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

  it('knows the loop', () => {
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
