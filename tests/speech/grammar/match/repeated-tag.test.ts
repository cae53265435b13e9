/**
 * A repeated tag counts once, as a repeated $NULL does (SRGS 1.0 section 2.5; W3C's test "repeat-many-null"). Of tags the
 * Recommendation says nothing: that special case was taken out before it, since too few had built it (W3C's
 * implementation report of 18 December 2003, tests "tag-repetition").
 */
import { describe, expect, it } from 'vitest';
import { rules } from '../linked';
import { matchRule } from './match-rule';

const parseOf = (text: string, said = 'a'): string | null =>
  matchRule(rules(text), 'r', said.split(' '))?.parse ?? null;

describe('a repeated tag counts once', () => {
  it.each([
    ['$r = {x}<3> a;', '$r[{!{x}!},"a"]'],
    ['$r = ({x})<2-5> a;', '$r[{!{x}!},"a"]'],
    ['$r = {x}<1-> a;', '$r[{!{x}!},"a"]'],
    ['$r = a ({x}<2>)<3>;', '$r["a",{!{x}!},{!{x}!},{!{x}!}]'],
  ])('%s', (text, parse) => {
    expect(parseOf(text)).toBe(parse);
  });

  it('in meaning too', () => {
    const text = '$r = {out = 1;} a {out += 1;}<3>;';
    expect(matchRule(rules(text), 'r', ['a'])?.meaning).toEqual({ ok: true, value: 2 });
  });

  it('and repeated never it is not there', () => {
    expect(parseOf('$r = {x}<0> a;')).toBe('$r["a"]');
    expect(parseOf('$r = {x}<0-3> a;')).toBe('$r["a"]');
  });

  it('but what holds words beside a tag is repeated as often as it is said', () => {
    expect(parseOf('$r = (a {x})<2>;', 'a a')).toBe('$r["a",{!{x}!},"a",{!{x}!}]');
  });

  it('and so is a rule, although it holds a tag alone', () => {
    expect(parseOf('$r = $t<2> a; $t = {x};')).toBe('$r[$t[{!{x}!}],$t[{!{x}!}],"a"]');
  });
});
