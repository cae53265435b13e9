/** Running a tag (SISR 1.0): each operator as ECMAScript has it, and tags where no rule was matched. */
import { describe, expect, it } from 'vitest';
import { parseTag } from '../../../../src/speech/grammar/sisr/parse-tag';
import { meaningOf } from '../../../../src/speech/grammar/sisr/run-tag';
import { FORMAT, run, tag } from './run-script';

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
