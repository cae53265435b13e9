/** Meaning: SISR 1.0 (W3C Recommendation 5 April 2007), literals and the part of the script form that we run. */
import { describe, expect, it } from 'vitest';
import { matchRule } from '../match/match-rule';
import { grammarText, linked, rules } from '../linked';

function meaning(text: string, words: string): unknown {
  const match = matchRule(rules(text), 'r', words.split(' '));
  if (match === null) return 'no match';
  return match.meaning.ok ? match.meaning.value : match.meaning.reason;
}

describe('literal tags', () => {
  const literal = (text: string, words: string): unknown => {
    const match = matchRule(linked(grammarText(text, 'semantics/1.0-literals')), 'r', words.split(' '));
    return match?.meaning.ok === true ? match.meaning.value : null;
  };

  it.each([
    ['the tag is the meaning', '$r = nope {no};', 'nope', 'no'],
    ['the last tag counts', '$r = a {one} b {two};', 'a b', 'two'],
    ['the tag is taken to the letter', '$r = a { "x" };', 'a', ' "x" '],
    ['without a tag: the rule said last', '$r = $a $b; $a = a {first}; $b = b {second};', 'a b', 'second'],
    ['without a tag or rule: the words', '$r = stand by;', 'stand by', 'stand by'],
  ])('%s', (...[, text, words, expected]) => {
    expect(literal(text, words)).toBe(expected);
  });
});

describe('scripts', () => {
  it.each([
    ['a number', '$r = a {out = 1.5;};', 1.5],
    ['a string', "$r = a {out = 'x\\'y';};", "x'y"],
    ['truth', '$r = a {out = true;};', true],
    ['nothing', '$r = a {out = null;};', null],
    ['an object', '$r = a {!{out = {x: 1, "y z": [2, {}]};}!};', { x: 1, 'y z': [2, {}] }],
    ['properties', '$r = a {out.x = 1; out.y = out.x + 1;};', { x: 1, y: 2 }],
    ['precedence', '$r = a {out = 2 + 3 * 4 - 6 / 2;};', 11],
    ['from the left', '$r = a {out = 10 - 4 - 3;};', 3],
    ['brackets and signs', '$r = a {out = -(2 + 3) * -1;};', 5],
    ['joined strings', '$r = a {out = "x" + 1 + 2;};', 'x12'],
    ['adding to', '$r = a {out = 1; out += 2;};', 3],
    ['a choice', '$r = a {out = 1 > 2 ? "yes" : "no";};', 'no'],
    ['a name of one’s own', '$r = a {var n = 4; out = n * n;};', 16],
    ['remarks', '$r = a {out = 1; /* out = 2; */ // out = 3;};'.replace('// out = 3;', ''), 1],
    ['a rule', '$r = $b {out = rules.b * 2;}; $b = a {out = 4;};', 8],
    ['the rule said last', '$r = $b {out = rules.latest();}; $b = a {out = 4;};', 4],
    ['what was said to a rule', '$r = $b {out = meta.b.text;}; $b = a;', 'a'],
    ['all that was said', '$r = $b {out = meta.current().text;}; $b = a;', 'a'],
    ['no tag: the rule said last', '$r = $b; $b = a {out = 4;};', 4],
    ['no tag, no rule: the words', '$r = a;', 'a'],
    ['a list', '$r = a {out = new Array; out.push(1); out.push("x");};', [1, 'x']],
  ])('%s', (...[, text, expected]) => {
    expect(meaning(text, 'a')).toEqual(expected);
  });

  it('values in the header are there for every rule', () => {
    const text = grammarText('{var dozen = 12;};\n$r = a {out = dozen * 2;};');
    expect(matchRule(linked(text), 'r', ['a'])?.meaning).toEqual({ ok: true, value: 24 });
  });

  it('a changed copy does not reach back', () => {
    const text = '$r = $b {out.first = rules.b; rules.b.x = 9; out.second = rules.b;}; $b = a {out.x = 1;};';
    expect(meaning(text, 'a')).toEqual({ first: { x: 9 }, second: { x: 9 } });
    const twice = '$r = $b {out.first = rules.b;} $b {rules.b.x = 9; out.second = rules.b;}; $b = a {out.x = 1;};';
    expect(meaning(twice, 'a a')).toEqual({ first: { x: 1 }, second: { x: 9 } });
  });
});

describe('what a script may not do means nothing, and harms nothing', () => {
  it.each([
    ['a name without a value', '{out = content;}'],
    ['a call', '{out = alert();}'],
    ['a call of what is no function', '{out = rules.constructor("x")();}'],
    ['the prototype', '{out.__proto__ = 1;}'],
    ['the prototype by another way', '{out["__proto__"] = 1;}'],
    ['a constructor', '{out = new Function("x");}'],
    ['a loop', '{while (true) { }'],
    ['a function', '{out = function() 1;}'],
    ['a property of nothing', '{out = rules.none.x;}'],
    ['an unset value', '{out = rules.none;}'],
    ['adding objects', '{out = out + out;}'],
    ['no number at all', '{out = 1 / 0;}'],
    ['a rule’s own table', '{rules = 1;}'],
    ['setting another’s meaning', '{rules.x = 1;}'],
    ['a string that is not closed', '{out = "x;}'],
    ['nesting beyond reason', `{out = ${'('.repeat(100)}1${')'.repeat(100)};}`],
    ['growing without end', `{out = "xxxxxxxxxx";${' out = out + out;'.repeat(30)}}`],
    ['an object within itself', '{out.x = out;}'],
  ])('%s', (...[, tag]) => {
    expect(meaning(`$r = a ${tag};`, 'a')).toBe('no-meaning');
    expect(({} as { x?: unknown }).x).toBeUndefined();
  });

  it('a broken tag does not stop the words from matching (SRGS 2.6)', () => {
    expect(matchRule(rules('$r = a {content};'), 'r', ['a'])?.parse).toBe('$r["a",{!{content}!}]');
  });

  it('tags of another format are left alone', () => {
    expect(matchRule(linked(grammarText('$r = a {out = 1;};', 'other/1.0')), 'r', ['a'])?.meaning).toEqual({
      ok: true,
      value: 'a',
    });
  });
});

describe('worked examples', () => {
  it('the order of drink and pizza (SISR 1.0, section 8.1 as quoted by encyclopaedias; the grammar here is our own)', () => {
    const text = `
$r = i would like a $drink {out.drink = rules.drink;} and $pizza {out.pizza = rules.pizza;};
$drink = $size $liquid {out.liquid = rules.liquid; out.drinksize = rules.size;};
$size = {out = "medium";} [small {out = "small";} | large {out = "large";}];
$liquid = (coke | coca cola) {out = "coke";};
$number = three {out = 3;} | two {out = 2;};
$pizza = $number $size pizzas with {out.topping = new Array; out.number = rules.number; out.pizzasize = rules.size;}
         $top {out.topping.push(rules.top);} (and $top {out.topping.push(rules.top);})<0->;
$top = pepperoni {out = "pepperoni";} | (mushroom | mushrooms) {out = "mushrooms";};`;
    // The quoted result prints the number as a string, though the tag assigns a number: a number it is here.
    expect(meaning(text, 'i would like a coca cola and three large pizzas with pepperoni and mushrooms')).toEqual({
      drink: { liquid: 'coke', drinksize: 'medium' },
      pizza: { number: 3, pizzasize: 'large', topping: ['pepperoni', 'mushrooms'] },
    });
  });

  it('"two three dogs" (example of an open-source SISR processor)', () => {
    const text = `
$r = {out.count = "";} ($digit {out.count += rules.digit;})<1-> $thing {out.thing = rules.thing;};
$digit = two {out = 2;} | three {out = 3;};
$thing = dogs {out = "dog";};`;
    expect(meaning(text, 'two three dogs')).toEqual({ count: '23', thing: 'dog' });
  });

  it('"one two": text of the first digit and of all (example of an open-source SISR processor)', () => {
    const text =
      '$r = $digit {out.first = meta.digit.text;} $digit {out.all = meta.current().text;}; $digit = one | two;';
    expect(meaning(text, 'one two')).toEqual({ first: 'one', all: 'one two' });
  });
});
