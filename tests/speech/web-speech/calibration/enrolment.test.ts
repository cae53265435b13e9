/** How the weight of a person's own samples is measured: what is cut out, who says what, and what is searched. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CutWord } from '@stowcall/web-speech/calibration/cut-words';
import { soundOf, speakerSets, wordsOf } from '@stowcall/web-speech/calibration/cut-words';
import { EnrolledMeter } from '@stowcall/web-speech/calibration/enrolled-meter';
import type { RecognitionEngine } from '@stowcall/web-speech/core';
import { automatonOf, marginsFor, THRESHOLDS } from '@stowcall/web-speech/core';
import { parseJsgf } from '@stowcall/grammar';
import { hiss } from '../../../audio/hiss';
import { FakeEngine } from './fake-engine';

const word = (text: string, index: number, { place = 0, speaker = 'a' } = {}): CutWord => {
  return { wav: `${speaker}${index}`, speaker, index, place, word: text, first: 10, last: 40 };
};
const VOCABULARY = ['one', 'two', 'three', 'four'];

describe('who says what', () => {
  const first = VOCABULARY.map((text, place) => word(text, 0, { place }));

  it('the first time is the sample, later ones from other recordings are said, the rest is other speech', () => {
    const [set] = speakerSets([...first, word('one', 0, { place: 4 }), word('two', 1), word('x', 3)], VOCABULARY);
    expect(set?.templates.map(({ word }) => word)).toEqual(VOCABULARY);
    expect(set?.tests.map(({ word, index }) => [word, index])).toEqual([['two', 1]]);
    expect(set?.others.map(({ word }) => word)).toEqual(['x']);
  });

  it('nobody with fewer than four words, and no word that is too short to be cut', () => {
    expect(speakerSets(first.slice(0, 3), VOCABULARY)).toEqual([]);
    const short = { ...word('four', 0, { place: 3 }), last: 20 };
    expect(speakerSets([...first.slice(0, 3), short], VOCABULARY)).toEqual([]);
  });

  it('each speaker apart, and no word more than twice', () => {
    const again = [1, 2, 3].map((index) => word('one', index));
    const other = VOCABULARY.map((text, place) => word(text, 9, { place, speaker: 'b' }));
    const sets = speakerSets([...first, ...again, ...other], VOCABULARY);
    expect(sets.map(({ speaker, tests }) => [speaker, tests.length])).toEqual([
      ['a', 2],
      ['b', 0],
    ]);
  });
});

describe('cutting', () => {
  it('takes the word’s place from the engine, and its sound with soft ends', () => {
    const recording = { wav: 'w', speaker: 'a', text: 'go' };
    const [cut] = wordsOf(new FakeEngine(0), { recording, index: 7, sound: new Float32Array(16_000) });
    expect(cut).toEqual({ wav: 'w', speaker: 'a', index: 7, place: 0, word: 'go', first: 20, last: 50 });
    const sound = cut === undefined ? [] : soundOf(cut, new Float32Array(16_000).fill(1));
    // Two frames before it, and four after its last one.
    expect(sound).toHaveLength((50 + 5 - 18) * 160);
    expect([sound[0], sound[80], sound[3000], sound.at(-1)]).toEqual([0, 0.5, 1, 0]);
  });

  it('nothing is cut where the engine hears something else', () => {
    expect(
      wordsOf(new FakeEngine(0), {
        recording: { wav: 'w', speaker: 'a', text: 'stop' },
        index: 0,
        sound: new Float32Array(9),
      }),
    ).toEqual([]);
  });
});

describe('what a phrase needs', () => {
  const grammar = parseJsgf('#JSGF V1.0; grammar a; public <a> = go | stop;');
  const automaton = grammar.ok ? automatonOf([grammar.value]) : grammar;
  if (!automaton.ok) throw new Error(automaton.detail);
  const sound = hiss(0.0001, 32_000, 3).map((sample, at) =>
    at > 9600 && at < 19_200 ? 0.3 * Math.sin(at * 1.3) : sample,
  );
  const plain = marginsFor(THRESHOLDS.high, 60, 2).filler;
  const meterOver = (engine: RecognitionEngine, cache: string, of = 'x') =>
    new EnrolledMeter({ engine, automaton: automaton.value, cache, of });
  const cacheFile = () => join(mkdtempSync(join(tmpdir(), 'stowcall-enrolled-')), 'cache.json');
  const ear = { scores: () => [0.25] };

  it.each([
    ['none more where it wins by as much', plain - 30, -30],
    ['as much as the filler is dearer', plain - 10, -10],
    ['nothing where it just wins', plain, 0],
    ['more than there may be where it never wins', plain + 1, null],
  ])('is %s', (_, least, needed) => {
    const found = meterOver(new FakeEngine(least), cacheFile()).measure('tone', () => sound, ear);
    // In quiet the filler is never dearer than in the first pass, so what fails at 0 fails at all.
    expect(found).toEqual(found === null ? null : { phrase: 'go', needed, score: needed === null ? 0 : 0.25 });
    expect(found === null).toBe(least > plain);
  });

  it('is searched once', () => {
    const [engine, cache] = [new FakeEngine(plain), cacheFile()];
    const meter = meterOver(engine, cache);
    meter.measure('tone', () => sound, ear);
    meter.save();
    const { searches } = engine;
    meterOver(engine, cache).measure('tone', () => sound, ear);
    expect(engine.searches).toBe(searches);
    meterOver(engine, cache, 'y').measure('tone', () => sound, ear);
    expect(engine.searches).toBeGreaterThan(searches);
  });

  it('of what nobody said is not asked', () => {
    const found = meterOver(new FakeEngine(0), cacheFile()).measure('silence', () => new Float32Array(32_000), ear);
    expect(found).toBeNull();
  });
});
