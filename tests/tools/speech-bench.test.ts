/** The bench of the ear: what it counts, how it mixes noise, and what it refuses. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readUtterances } from '../bench/speech';
import { readAnyGrammar } from '../bench/speech/any-grammar';
import { shareOf } from '../bench/speech/interval';
import { mixNoise } from '../bench/speech/noise';
import type { Outcome } from '../bench/speech/tally';
import { countOutcomes } from '../bench/speech/tally';
import { makeWav } from '../audio/wav';

const folder = () => mkdtempSync(join(tmpdir(), 'stowcall-bench-'));

function written(text: string): string {
  const file = join(folder(), 'some.gram');
  writeFileSync(file, text);
  return file;
}

const outcome = (wanted: string | null, decision: Outcome['decision'], meaning: string | null): Outcome => ({
  wav: 'a.wav',
  text: 'go',
  wanted,
  heard: meaning,
  meaning,
  decision,
});

describe('counting', () => {
  it('tells obeyed, wrong, asked, refused and falsely accepted apart', () => {
    const { inGrammar, other, confusions } = countOutcomes([
      outcome('"go"', 'obeyed', '"go"'),
      outcome('"go"', 'obeyed', '"no"'),
      outcome('"go"', 'asked', null),
      outcome('"go"', 'refused', null),
      outcome(null, 'refused', null),
      outcome(null, 'obeyed', '"no"'),
    ]);
    expect(inGrammar).toMatchObject({ n: 4, obeyed: 1, wrong: 1, asked: 1, refused: 1 });
    expect(other).toMatchObject({ n: 2, falselyAccepted: 1 });
    expect(confusions).toEqual({ go: { '"no"': 1, '(asked)': 1, '(refused)': 1 }, 'other: go': { '"no"': 1 } });
  });

  // Worked by hand after Wilson (1927): 1 of 10 lies between 1.8 and 40.4 %; 0 of 100 below 3.7 %.
  it.each([
    [1, 10, 0.0179, 0.4042],
    [0, 100, 0, 0.037],
    [10, 10, 0.7225, 1],
  ])('the interval of %d in %d', (count, n, low, high) => {
    const { interval } = shareOf(count, n);
    expect(interval[0]).toBeCloseTo(low, 3);
    expect(interval[1]).toBeCloseTo(high, 3);
  });

  it('says nothing of nothing', () => {
    expect(shareOf(0, 0).interval).toEqual([0, 1]);
  });
});

describe('noise', () => {
  const speech = Float32Array.from({ length: 8_192 }, (_, at) => (at >= 2_048 && at < 4_096 ? 0.5 : 0));
  const noise = Float32Array.from({ length: 20_000 }, (_, at) => (at % 2 === 0 ? 0.1 : -0.1));

  it('stands as many dB under the loudest frame as is asked', () => {
    const mixed = mixNoise(speech, noise, 12, 1);
    expect(20 * Math.log10(0.5 / Math.abs(mixed[0] ?? 1))).toBeCloseTo(12, 5);
  });

  it('is the same for the same seed and another for another', () => {
    const ramp = noise.map((sample, at) => sample * at);
    expect(mixNoise(speech, ramp, 12, 5)).toEqual(mixNoise(speech, ramp, 12, 5));
    expect(mixNoise(speech, ramp, 12, 5)).not.toEqual(mixNoise(speech, ramp, 12, 6));
  });

  it('that is too short is refused', () => {
    expect(() => mixNoise(speech, noise.subarray(0, 100), 12, 1)).toThrow('shorter');
  });
});

describe('grammars and utterances', () => {
  const HEAD = '#ABNF 1.0 UTF-8;\nlanguage en-US;\nmode voice;\ntag-format <semantics/1.0>;\n';

  it('means what the root means, or the rule that is asked for', () => {
    const file = written(`${HEAD}root $a;\npublic $a = go {out = "left";};\npublic $b = stop {out = 2;};\n`);
    expect(readAnyGrammar(file, null).meaningOf('go')).toBe('"left"');
    expect(readAnyGrammar(file, null).meaningOf('stop')).toBeNull();
    expect(readAnyGrammar(file, 'b').meaningOf('stop')).toBe('2');
  });

  it.each([
    ['a grammar with a fault', `${HEAD}public $a = go`, null, 'some.gram'],
    ['a rule that is not there', `${HEAD}public $a = go;`, 'zed', 'zed'],
  ])('%s is refused with its place', (_, text, rule, why) => {
    expect(() => readAnyGrammar(written(text), rule)).toThrow(why);
  });

  it.each([
    ['a row without text', '{"wav":"a.wav"}', 8_000, 'utterances.jsonl:1'],
    ['a sound of another rate', '{"wav":"a.wav","text":"go"}', 8_000, '8000 Hz'],
  ])('%s is refused', (_, row, rate, why) => {
    const at = folder();
    writeFileSync(join(at, 'a.wav'), makeWav(new Float32Array(100), rate));
    writeFileSync(join(at, 'utterances.jsonl'), `${row}\n`);
    expect(() => readUtterances(join(at, 'utterances.jsonl'))).toThrow(why);
  });
});
