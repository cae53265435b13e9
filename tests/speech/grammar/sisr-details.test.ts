/** Tags at their edges (SISR 1.0): each operator, each bound, and what is said of a tag that cannot be read or run. */
import { describe, expect, it } from 'vitest';
import { matchRule } from './match-rule';
import { parseTag } from '../../../src/speech/grammar/sisr/parse-tag';
import { meaningOf } from '../../../src/speech/grammar/sisr/run-tag';
import type { Step } from '../../../src/speech/grammar/sisr/run-tag';
import { rules } from './linked';

const FORMAT = 'semantics/1.0';
const tag = (content: string): Step => ({ kind: 'tag', content, action: parseTag(FORMAT, content) });
const rule = (name: string, value: string | number, text: string): Step => ({
  kind: 'rule',
  name,
  meaning: { ok: true, value },
  text,
});

/** What a tag makes of a rule `b` that meant 4 and was said as "four"; a fault gives its sentence. */
function run(content: string): unknown {
  const meant = meaningOf([rule('b', 4, 'four'), tag(content)], 'say four');
  return meant.ok ? meant.value : meant.detail;
}

describe('the tag format (SISR 1.0 section 4)', () => {
  it.each([
    ['semantics/1.0', 'script'],
    ['semantics/1.0.2006', 'script'],
    ['semantics/1.0-literals', 'literal'],
    ['semantics/1.0.2006-literals', 'literal'],
    ['semantics/1.0.2007', 'ignored'],
    ['semantics/1x0', 'ignored'],
    ['semantics/1.0x', 'ignored'],
    ['x-semantics/1.0', 'ignored'],
    ['x-semantics/1.0-literals', 'ignored'],
    ['semantics/1.0-literals-x', 'ignored'],
    [null, 'ignored'],
  ])('%s: %s', (format, kind) => {
    expect(parseTag(format, 'out = 1;').kind).toBe(kind);
  });
});

describe('operators as ECMAScript has them', () => {
  it.each<[string, unknown]>([
    ['7 % 4', 3],
    ['7 / 2', 3.5],
    ['7 - 2', 5],
    ['7 * 2', 14],
    ['1 + 2 * 3', 7],
    ['(1 + 2) * 3', 9],
    ['8 / 2 / 2', 2],
    ['8 % 5 * 2', 6],
    ['1 < 2 == true', true],
    ['1 == 1 && 2 == 3', false],
    ['true || false && false', true],
    ['1 < 2', true],
    ['2 < 2', false],
    ['2 > 2', false],
    ['3 > 2', true],
    ['2 <= 2', true],
    ['3 <= 2', false],
    ['2 >= 2', true],
    ['1 >= 2', false],
    ['"10" < "9"', true],
    ['"10" < 9', false],
    ['10 < "9"', false],
    ['"b" > "a"', true],
    ['1 == 1', true],
    ['1 === 2', false],
    ['1 != 1', false],
    ['1 !== 2', true],
    ['"1" == 1', false],
    ['0 || "x"', 'x'],
    ['1 || "x"', 1],
    ['0 && "x"', 0],
    ['1 && "x"', 'x'],
    ['!0', true],
    ['!"x"', false],
    ['-"3"', -3],
    ['+"3"', 3],
    ['- - 3', 3],
    ['"3" * "4"', 12],
    ['"3" + 4', '34'],
    ['3 + "4"', '34'],
    ['"a" + "b"', 'ab'],
    ['1 ? 2 : 3', 2],
    ['0 ? 2 : 3', 3],
    ['1 ? 0 ? 2 : 3 : 4', 3],
    ['1.5e2', 150],
    ['1.5E+2', 150],
    ['1e-2', 0.01],
    ['1.5e10', 15e9],
    ['.5e10', 5e9],
    ['.25e-10', 25e-12],
    ['2 === 1', false],
    ['"a" === "a"', true],
    ['2 !== 1', true],
    // A sign inside quotes is a text.
    ['";"', ';'],
    ['"("', '('],
    ['["+", ","]', ['+', ',']],
    ['{a: {length: 5}}.a.length', 5],
    ['12', 12],
    ['1.', 1],
    ['.25', 0.25],
    ['.5e1', 5],
    ['.5E-1', 0.05],
    ['"a\\n\\t\\r\\\\\\"\\\'"', 'a\n\t\r\\"\''],
    ["'a\"b'", 'a"b'],
    ['"a\'b"', "a'b"],
    ['[]', []],
    ['[1, 2][1]', 2],
    ['[1, 2].length', 2],
    ['"four".length', 4],
    ['{}', {}],
    ['{a: 1, "b c": 2, 3: 4}', { a: 1, 'b c': 2, 3: 4 }],
    ['{a: {b: 5}}.a.b', 5],
    ['{a: 7}["a"]', 7],
    ['{7: 8}[7]', 8],
    ['new Object', {}],
    ['new Object()', {}],
    ['new Array()', []],
    ['null', null],
    ['false', false],
    ['undefined == rules.none', true],
    ['rules.b', 4],
    ['rules.latest()', 4],
    ['meta.b.text', 'four'],
    ['meta.latest().text', 'four'],
    ['meta.current().text', 'say four'],
    ['0 * -1', 0],
  ])('%s', (expression, expected) => {
    expect(run(`out = ${expression};`)).toEqual(expected);
  });

  it('minus nought is nought', () => {
    expect(Object.is(run('out = 0 * -1;'), 0)).toBe(true);
  });

  it('what is set, added to and pushed', () => {
    expect(run('var größe_1$ = 3; out = größe_1$;')).toBe(3);
    expect(run('var x = 1; x += 2; out = x;')).toBe(3);
    expect(run('out.a = 1; out.a += 2; out["b"] = 3;')).toEqual({ a: 3, b: 3 });
    expect(run('out = []; var n = out.push(5, 6); out.push(n);')).toEqual([5, 6, 2]);
    expect(run(';; out = 1 ;;')).toBe(1);
    expect(run('out = 1 // more\n')).toBe(1);
    expect(run('/* a */ out = /* b */ 1')).toBe(1);
    expect(run('')).toBe(4);
    expect(run('1;')).toEqual({});
    expect(run('"var"; out = 2;')).toBe(2);
  });

  it('only what is needed of a choice is run', () => {
    expect(run('out = 1 ? 2 : nothing;')).toBe(2);
    expect(run('out = 0 ? nothing : 3;')).toBe(3);
    expect(run('out = 0 && nothing;')).toBe(0);
    expect(run('out = 1 || nothing;')).toBe(1);
  });
});

describe('where no rule was said', () => {
  const alone = (content: string): unknown => {
    const meant = meaningOf([tag(content)], 'words');
    return meant.ok ? meant.value : meant.detail;
  };
  it.each([
    ['out = meta.latest().text;', ''],
    ['out = rules.latest() == undefined;', true],
    ['out = rules.latest();', 'A part of the meaning was never set.'],
  ])('%s', (content, expected) => {
    expect(alone(content)).toBe(expected);
  });

  it('words alone mean themselves', () => {
    expect(meaningOf([{ kind: 'words', words: ['words'] }], 'words')).toEqual({ ok: true, value: 'words' });
  });

  it('tags of the header set values and mean nothing', () => {
    const header = [parseTag(FORMAT, 'var dozen = 12; out.x = 1;'), parseTag('other', 'x')];
    expect(meaningOf([], 'words', header)).toEqual({ ok: true, value: 'words' });
    expect(meaningOf([tag('out.y = dozen;')], 'words', header)).toEqual({ ok: true, value: { y: 12 } });
    expect(meaningOf([], 'words', [parseTag(FORMAT, 'out = (')])).toMatchObject({ ok: false });
  });

  it('a rule without a meaning takes the meaning from the whole', () => {
    const meaning = { ok: false, reason: 'no-meaning', detail: 'A number was expected.' } as const;
    expect(meaningOf([{ kind: 'rule', name: 'b', meaning, text: 'four' }], 'four')).toEqual(meaning);
  });
});

describe('a tag that cannot be read', () => {
  it.each([
    ['out = "\\x";', '"\\x" in a string is not understood.'],
    ['out = #hash and more words;', '"#hash and " cannot be read.'],
    ['out = "x', '""x" cannot be read.'],
    ["out = 'x\n';", '"\'x\n\';" cannot be read.'],
    ['out = ;', '";" was not expected here.'],
    ['out = 1', null],
    ['out = (1', '"the end of the tag" was not expected here.'],
    ['out = [1', '"the end of the tag" was not expected here.'],
    ['out = [1 2]', '"2" was not expected here.'],
    ['out = {a 1}', '"1" was not expected here.'],
    ['out = {a: 1', '"the end of the tag" was not expected here.'],
    ['out = {[1]: 1}', '"[" was not expected here.'],
    ['out = 1 ? 2', '"the end of the tag" was not expected here.'],
    ['out = a.1', '".1" was not expected here.'],
    ['out = a[1', '"the end of the tag" was not expected here.'],
    ['out = a.b(1', '"the end of the tag" was not expected here.'],
    ['out = 1 out = 2', '"out" was not expected here.'],
    ['var = 1', '"=" was not expected here.'],
    ['var x 1', '"1" was not expected here.'],
    ['var x', '"the end of the tag" was not expected here.'],
    ['var x.y = 1', '"." was not expected here.'],
    ['out = 1 "+" 2', '"+" was not expected here.'],
    ['out = new "Object"', '"Object" was not expected here.'],
    ['1 = 2', 'Only names can be assigned to.'],
    ['a.b() += 2', 'Only names can be assigned to.'],
    ['out = new Date', '"new Date" is not allowed.'],
    ['out = new Array(', '"the end of the tag" was not expected here.'],
    ['out.__proto__ = 1', 'The name __proto__ is not allowed.'],
    ['out.prototype = 1', 'The name prototype is not allowed.'],
    ['out = a.constructor()', 'The name constructor is not allowed.'],
    ['out = {"constructor": 1}', 'The name constructor is not allowed.'],
    ['out = {__proto__: 1}', 'The name __proto__ is not allowed.'],
    [`out = ${'('.repeat(41)}1${')'.repeat(41)}`, 'The tag is nested too deep.'],
    [`out = ${'('.repeat(40)}1${')'.repeat(40)}`, null],
    [`out = ${'['.repeat(41)}1${']'.repeat(41)}`, 'The tag is nested too deep.'],
    [`out = ${'!'.repeat(41)}1`, 'The tag is nested too deep.'],
    [`out = ${'!'.repeat(40)}1`, null],
    [`out = ${'{a:'.repeat(41)}1${'}'.repeat(41)}`, 'The tag is nested too deep.'],
    [`out = ${'a['.repeat(41)}1${']'.repeat(41)}`, 'The tag is nested too deep.'],
    [`out = ${'1?'.repeat(41)}1${':1'.repeat(41)}`, 'The tag is nested too deep.'],
    [`out = ${'1?1:'.repeat(41)}1`, 'The tag is nested too deep.'],
    [`out = 1;${' '.repeat(3_992)}`, null],
    [`out = 1;${' '.repeat(3_993)}`, 'The tag is too long.'],
  ])('%s', (content, detail) => {
    const read = parseTag(FORMAT, content);
    if (detail === null) expect(read.kind).toBe('script');
    else expect(read).toEqual({ kind: 'broken', detail });
  });
});

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
