/** The bench of the ear: what it counts, and what it refuses. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readUtterances } from '../../bench/speech';
import { readAnyGrammar } from '../../bench/speech/any-grammar';
import type { Outcome } from '../../bench/speech/tally';
import { countOutcomes } from '../../bench/speech/tally';
import { makeWav } from '../../audio/wav';

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
  ])('%s is refused with its place', (...[, text, rule, why]) => {
    expect(() => readAnyGrammar(written(text), rule)).toThrow(why);
  });

  it.each([
    ['a row without text', '{"wav":"a.wav"}', 8_000, 'utterances.jsonl:1'],
    ['a sound of another rate', '{"wav":"a.wav","text":"go"}', 8_000, '8000 Hz'],
  ])('%s is refused', (...[, row, rate, why]) => {
    const at = folder();
    writeFileSync(join(at, 'a.wav'), makeWav(new Float32Array(100), rate));
    writeFileSync(join(at, 'utterances.jsonl'), `${row}\n`);
    expect(() => readUtterances(join(at, 'utterances.jsonl'))).toThrow(why);
  });
});
