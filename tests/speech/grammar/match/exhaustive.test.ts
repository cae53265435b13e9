/** Matching counted out: every number of turns against plain sums, every choice of optional words, rules that lead back to themselves. */
import { describe, expect, it } from 'vitest';
import { Matcher } from '../../../../src/speech/grammar/match/match';
import { matchRule } from './match-rule';
import { rules } from '../linked';

const words = (text: string): readonly string[] => text.split(' ').filter((word) => word !== '');
const parse = (text: string, said: string): string | null => matchRule(rules(text), 'r', words(said))?.parse ?? null;

describe('words', () => {
  it.each([
    ['"a b" c', 'a x c'],
    ['"a b" c', 'x b c'],
    ['"a b"', 'a'],
    ['a b', 'a'],
    ['a b', 'a b c'],
    ['a | b', 'c'],
    ['a | b c', 'b'],
    // Nothing is nothing, and not $GARBAGE.
    ['a $NULL b', 'a x b'],
    ['$NULL', 'x'],
  ])('%s does not take "%s"', (text, said) => {
    expect(parse(`$r = ${text};`, said)).toBeNull();
  });

  it('every choice of optional words is read as it was made', () => {
    const names = ['a', 'b', 'c', 'd', 'e'];
    const grammar = rules('$r = [a] [b] [c] [d] [e];');
    for (let choice = 0; choice < 32; choice += 1) {
      const said = names.filter((_, at) => (choice >> at) % 2 === 1);
      expect(matchRule(grammar, 'r', said)?.parse).toBe(`$r[${said.map((word) => `"${word}"`).join(',')}]`);
      if (said.length > 1) expect(matchRule(grammar, 'r', [...said].reverse())).toBeNull();
    }
  });
});

describe('turns', () => {
  /** Whether `total` is a sum of `min` to `max` of these sizes. */
  function isSum(total: number, sizes: readonly number[], [min, max]: readonly [number, number]): boolean {
    if (min <= 0 && total === 0) return true;
    return max > 0 && sizes.some((size) => size <= total && isSum(total - size, sizes, [min - 1, max - 1]));
  }

  it.each([[[1]], [[2]], [[3]], [[1, 2]], [[1, 3]], [[2, 3]], [[2, 5]], [[1, 4]], [[3, 4]], [[1, 2, 3]]])(
    'of %j words are counted as sums are',
    (sizes) => {
      const branches = sizes.map((size) => Array.from({ length: size }, () => 'a').join(' ')).join(' | ');
      for (const [min, max] of [
        [0, 1],
        [0, 3],
        [1, 1],
        [1, 2],
        [2, 2],
        [2, 3],
        [3, 9],
        [0, Infinity],
        [2, Infinity],
      ] as const) {
        const grammar = rules(`$r = (${branches})<${min}-${max === Infinity ? '' : max}>;`);
        for (let total = 0; total <= 9; total += 1) {
          const said = Array.from({ length: total }, () => 'a');
          expect([min, max, total, matchRule(grammar, 'r', said) !== null]).toEqual([
            min,
            max,
            total,
            isSum(total, sizes, [min, Math.min(max, 10)]),
          ]);
        }
      }
    },
  );

  it('that take no words are made no oftener than they must', () => {
    expect(parse('$r = ({x})<0-> a;', 'a')).toBe('$r["a"]');
    expect(parse('$r = ({x})<1-> a;', 'a')).toBe('$r[{!{x}!},"a"]');
    expect(parse('$r = ($t)<2-5> a; $t = {x};', 'a')).toBe('$r[$t[{!{x}!}],$t[{!{x}!}],"a"]');
    const readings = new Matcher(rules('$r = ({x})<0-> a;'), ['a'], 'parse').match('r')?.readings;
    expect(readings).toHaveLength(1);
  });
});

describe('rules that lead back to themselves over the same words', () => {
  it.each([
    ['$r = $r | a;', 'a', '$r["a"]'],
    ['$r = a | $r;', 'a', '$r["a"]'],
    ['$r = $s | a; $s = $r | b;', 'a', '$r["a"]'],
    ['$r = $s | a; $s = $r | b;', 'b', '$r[$s["b"]]'],
    ['$r = [$r] a;', 'a', '$r["a"]'],
    ['$r = [$r] a;', 'a a', '$r[$r["a"],"a"]'],
    ['$r = $r [b] | a;', 'a b', '$r[$r["a"],"b"]'],
    ['$r = $s c; $s = $t | a; $t = $s | b;', 'b c', '$r[$s[$t["b"]],"c"]'],
    ['$r = $s $s; $s = $t | a; $t = $s | b;', 'b a', '$r[$s[$t["b"]],$s["a"]]'],
  ])('%s with "%s"', (text, said, expected) => {
    expect(parse(text, said)).toBe(expected);
  });

  it('are read in full where they are asked for again from outside', () => {
    const text = `$r = $s {out.s = rules.s;} | $t {out.t = rules.t;};
      $s = $t {out = rules.t;} | a {out = 1;}; $t = $s {out = rules.s;} | b {out = 2;};`;
    const readings = matchRule(rules(text), 'r', ['a'])?.readings.map(({ meaning }) => meaning);
    expect(readings).toEqual([
      { ok: true, value: { s: 1 } },
      { ok: true, value: { t: 1 } },
    ]);
  });

  it('mean what they mean without the way back', () => {
    const text =
      '$r = $s {out.s = rules.s;}; $s = $t {out = rules.t;} | a {out = 1;}; $t = $s {out = rules.s;} | a {out = 2;};';
    const readings = matchRule(rules(text), 'r', ['a'])?.readings.map(({ meaning }) => meaning);
    expect(readings).toEqual([
      { ok: true, value: { s: 2 } },
      { ok: true, value: { s: 1 } },
    ]);
  });
});

describe('readings', () => {
  it('two rules that mean the same are one for whoever asks for meanings', () => {
    const text = '$r = $s | $t; $s = a {out = 1;}; $t = a {out = 1;};';
    expect(matchRule(rules(text), 'r', ['a'])?.readings).toHaveLength(1);
  });

  it('of many ways to cut the same words are one, and overflow only for whoever asks for parses', () => {
    const grammar = rules('$r = (a | "a a")<1->;');
    const said = words('a a a a a a');
    expect(new Matcher(grammar, said).match('r')).toMatchObject({ overflown: false, readings: { length: 1 } });
    const longer = Array.from({ length: 20 }, () => 'a');
    expect(new Matcher(grammar, longer).match('r')).toMatchObject({ overflown: false, readings: { length: 1 } });
    expect(new Matcher(grammar, said, 'parse').match('r')).toMatchObject({ overflown: true, readings: { length: 8 } });
  });

  it('cut at another place are two parses', () => {
    const readings = new Matcher(rules('$r = "a b" c | a "b c";'), words('a b c'), 'parse').match('r')?.readings;
    expect(readings?.map((reading) => reading.parse)).toEqual(['$r["a b","c"]', '$r["a","b c"]']);
  });

  it('of a rule know its own words, with blanks between them', () => {
    const text = '$r = x $s {out = meta.s.text;} y; $s = (a b) {out = meta.current().text;};';
    expect(matchRule(rules(text), 'r', words('x a b y'))?.meaning).toEqual({ ok: true, value: 'a b' });
    const own = '$r = x $s {out = rules.s;} y; $s = (a b) {out = meta.current().text;};';
    expect(matchRule(rules(own), 'r', words('x a b y'))?.meaning).toEqual({ ok: true, value: 'a b' });
    expect(matchRule(rules('$r = x $s y; $s = a b;'), 'r', words('x a b y'))?.meaning).toEqual({
      ok: true,
      value: 'a b',
    });
  });

  it('nothing, a language and a void branch leave no trace', () => {
    expect(parse('$r = a $NULL (b | $VOID)!fr c!en;', 'a b c')).toBe('$r["a","b","c"]');
    expect(parse('$r = $NULL;', '')).toBe('$r[]');
  });
});
