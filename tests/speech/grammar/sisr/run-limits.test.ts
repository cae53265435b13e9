/** Running a tag (SISR 1.0): what a script may not do, and how large a meaning may grow. */
import { describe, expect, it } from 'vitest';
import { meaningOf } from '../../../../src/speech/grammar/sisr/run-tag';
import type { Step } from '../../../../src/speech/grammar/sisr/run-tag';
import { rules } from '../linked';
import { matchRule } from '../match/match-rule';
import { run, tag } from './run-script';

describe('a tag that cannot be run', () => {
  it.each([
    ['out = nothing;', '"nothing" has no value here.'],
    ['out = nothing.x;', '"nothing" has no value here.'],
    ['out = null.x;', '".x" has no value here.'],
    ['out = (1).x;', '".x" has no value here.'],
    ['out = "four".size;', '".size" has no value here.'],
    ['out = (1).length;', '".length" has no value here.'],
    ['out = null.length;', '".length" has no value here.'],
    ['out = "x" < 1;', 'A number was expected.'],
    ['out = 1 < "x";', 'A number was expected.'],
    ['out = null + 1;', 'Only numbers and strings can be added.'],
    ['out = {a: 1}[null];', 'A name must be a string.'],
    ['out = {a: 1}["constr" + "uctor"];', '"constructor" is not allowed.'],
    ['out["__pro" + "to__"] = 1;', '"__proto__" is not allowed.'],
    ['out["proto" + "type"] = 1;', '"prototype" is not allowed.'],
    ['out = {a: 1}.toString;', 'A part of the meaning was never set.'],
    ['out = [1][5];', 'A part of the meaning was never set.'],
    ['out = {}.toString();', '"toString()" is not known here.'],
    ['out = rules.push(1);', '"push()" is not known here.'],
    ['out = rules.current();', '"current()" is not known here.'],
    ['out = meta.push(1);', '"push()" is not known here.'],
    ['out = [1].pop();', '"pop()" is not known here.'],
    ['out = {}.latest();', '"latest()" is not known here.'],
    ['out = out.current();', '"current()" is not known here.'],
    ['rules = 1;', '"rules" cannot be assigned to.'],
    ['meta = 1;', '"meta" cannot be assigned to.'],
    ['rules.b = 1;', '".b" can only be set on an object.'],
    ['meta.b = 1;', '".b" can only be set on an object.'],
    ['out = 1; out.x = 1;', '".x" can only be set on an object.'],
    ['out = []; out.x = 1;', '".x" can only be set on an object.'],
    ['out = null; out.x = 1;', '".x" can only be set on an object.'],
    ['out = -"x";', 'A number was expected.'],
    ['out = -" ";', 'A number was expected.'],
    ['out = -true;', 'A number was expected.'],
    ['out = "Infinity" * 1;', 'A number was expected.'],
    ['out = null < 1;', 'A number was expected.'],
    ['out = 1 + null;', 'Only numbers and strings can be added.'],
    ['out = null + "x";', 'Only numbers and strings can be added.'],
    ['out = "x" + {};', 'Only numbers and strings can be added.'],
    ['out = 1 / 0;', 'A number in the meaning is not finite.'],
    ['out.x = 0 / 0;', 'A number in the meaning is not finite.'],
    ['out.x = undefined;', 'A part of the meaning was never set.'],
    ['out = [undefined];', 'A part of the meaning was never set.'],
    ['out.x = out;', 'The meaning grew too large.'],
  ])('%s', (content, detail) => {
    expect(run(content)).toBe(detail);
  });
});

describe('the bounds of a meaning', () => {
  const hundred = Array.from({ length: 100 }, () => '0').join(',');

  it('a text of 10,000 characters, and no more', () => {
    const grow = `var a = "${'x'.repeat(2_500)}"; a = a + a; out = a + a;`;
    expect(run(grow)).toHaveLength(10_000);
    expect(run(`${grow} out += "y";`)).toBe('The meaning grew too large.');
    expect(run(`${grow} out += 1;`)).toBe('The meaning grew too large.');
    expect(run(`${grow} out = 1 + out;`)).toBe('The meaning grew too large.');
  });

  it('a list of a thousand items, and no more', () => {
    const push = `out.push(${hundred});`;
    const grown = `out = []; ${push.repeat(10)}`;
    // The list itself counts as one of the thousand parts of a meaning.
    expect(run(`out = []; ${push.repeat(9)} out.push(${hundred.slice(2)});`)).toHaveLength(999);
    expect(run(`${grown} out = out.length;`)).toBe(1_000);
    expect(run(`${grown} out.push(1); out = 1;`)).toBe('The meaning grew too large.');
    expect(run(grown)).toBe('The meaning grew too large.');
  });

  it('an object of a thousand names, and no more', () => {
    const steps = (count: number): Step[] =>
      Array.from({ length: count }, (_, n) => tag(`rules.latest(); out["n${n}"] = 1;`));
    expect(meaningOf(steps(999), '')).toMatchObject({ ok: true });
    expect(meaningOf(steps(1_000), '')).toMatchObject({ ok: false, detail: 'The meaning grew too large.' });
    const last = tag('out = 1;');
    expect(meaningOf([...steps(1_001), last], '')).toMatchObject({ ok: true });
    expect(meaningOf([...steps(1_002), last], '')).toMatchObject({ detail: 'The meaning grew too large.' });
  });

  it('twenty levels, and no more', () => {
    const nested = (levels: number): string => `out = ${'['.repeat(levels)}1${']'.repeat(levels)};`;
    expect(JSON.stringify(run(nested(20)))).toBe(`${'['.repeat(20)}1${']'.repeat(20)}`);
    expect(run(nested(21))).toBe('The meaning grew too large.');
    const objects = (levels: number): string => `out = ${'{a:'.repeat(levels)}1${'}'.repeat(levels)};`;
    expect(JSON.stringify(run(objects(20)))).toBe(`${'{"a":'.repeat(20)}1${'}'.repeat(20)}`);
    expect(run(objects(21))).toBe('The meaning grew too large.');
  });

  it('a meaning that two readings share is not changed by one of them', () => {
    const text = '$r = $b {rules.b.x = 9; out = rules.b;} | $b {out = rules.b;}; $b = a {out.x = 1;};';
    expect(matchRule(rules(text), 'r', ['a'])?.readings.map(({ meaning }) => meaning)).toEqual([
      { ok: true, value: { x: 9 } },
      { ok: true, value: { x: 1 } },
    ]);
  });

  it('nothing is a meaning too', () => {
    expect(matchRule(rules('$r = $b {out.x = rules.b;}; $b = a {out = null;};'), 'r', ['a'])?.meaning).toEqual({
      ok: true,
      value: { x: null },
    });
  });

  it('a list that a rule meant is copied too', () => {
    const text =
      '$r = $b {out.first = rules.b;} $b {rules.b[0].x = 9; out.second = rules.b;}; $b = a {!{out = [{x: 1}];}!};';
    const match = matchRule(rules(text), 'r', ['a', 'a']);
    expect(match?.meaning).toEqual({ ok: true, value: { first: [{ x: 1 }], second: [{ x: 9 }] } });
  });
});
