/** A grammar that was written as JSGF accepts exactly what its rules accept, and what JSGF cannot say is refused. */
import { describe, expect, it } from 'vitest';
import { makeJsgf } from '../../../../src/speech/grammar/jsgf/make-jsgf';
import { matchRule } from '../match/match-rule';
import { generateSentences } from '../../../../src/speech/grammar/match/generate-sentences';
import { rules } from '../linked';
import { readJsgf } from './read-jsgf';

function jsgf(text: string, names: readonly string[] = ['r']): string {
  const made = makeJsgf(rules(text), names);
  if (!made.ok) throw new Error(made.detail);
  return made.value.jsgf;
}

describe('both accept the same', () => {
  it.each([
    ['alternatives', '$r = a | b c | (d | e) f;'],
    ['options', '$r = [a] b [c [d]];'],
    ['exact repeats', '$r = a<3> b<0> c;'],
    ['bounded repeats', '$r = (a b)<1-3> c<0-2>;'],
    ['unbounded repeats', '$r = a<0-> b<1-> c<3->;'],
    ['tags and nothing', '$r = {x} a {y} ($NULL | b {z}) ();'],
    ['void branches', '$r = a | $VOID b | $v; $v = $VOID;'],
    ['rules', '$r = $s $s<0-1>; $s = a | $t; $t = b;'],
    ['weights', '$r = /2/ a | /0.5/ b | c;'],
    ['languages', '$r = (a | b)!fr c;'],
  ])('%s', (...[, text]) => {
    const grammar = rules(text);
    const back = readJsgf(jsgf(text));
    const said = generateSentences(grammar, 'r', 200);
    const heard = generateSentences(back, 'utterance', 200);
    expect(said.length).toBeGreaterThan(0);
    for (const phrase of said)
      expect([phrase, matchRule(back, 'utterance', phrase.split(' '))]).not.toEqual([phrase, null]);
    for (const phrase of heard)
      expect([phrase, matchRule(grammar, 'r', phrase.split(' '))]).not.toEqual([phrase, null]);
  });
});

describe('what is written', () => {
  it('only the rules that are named and what they reach', () => {
    const text = jsgf('$r = $s; $s = a; $t = b;');
    expect(text).toContain('a');
    expect(text).not.toMatch(/\bb\b/);
  });

  it('the loop lies beside the commands with its weight', () => {
    const made = makeJsgf(rules('$r = stow;'), ['r'], {
      loop: { phones: ['AA', 'B'], weight: 1e-30, wordOf: (phone) => `ph_${phone.toLowerCase()}` },
    });
    expect(made.ok && made.value.jsgf.split('\n').slice(0, 7)).toEqual([
      '#JSGF V1.0;',
      'grammar commands;',
      'public <utterance> = /1.0/ <command> | /1e-30/ <other>;',
      '<command> = <r0_r>;',
      '<other> = <phone>+;',
      '<phone> = ph_aa | ph_b;',
      '<r0_r> = stow;',
    ]);
    // The words of the loop have their pronunciation by their name; only the others need to be looked up.
    expect(made.ok && made.value.words).toEqual(['stow']);
  });

  it('garbage becomes the loop', () => {
    const made = makeJsgf(rules('$r = a $GARBAGE;'), ['r'], {
      loop: { phones: ['B'], weight: 0.5, wordOf: () => 'ph_b' },
    });
    const back = readJsgf(made.ok ? made.value.jsgf : '');
    expect(matchRule(back, 'utterance', ['a', 'ph_b', 'ph_b'])).not.toBeNull();
  });
});

describe('what the recogniser cannot take is refused', () => {
  it.each([
    ['a rule that is not there', '$r = a;', 'x', 'unknown-rule'],
    ['recursion', '$r = a $r | b;', 'r', 'recursive-rule'],
    ['recursion through another', '$r = $s | b; $s = a $r;', 'r', 'recursive-rule'],
    ['a rule that can never be said', '$r = $VOID;', 'r', 'unspeakable'],
    ['garbage without a loop', '$r = $GARBAGE a;', 'r', 'unspeakable'],
    ['a word with signs', '$r = "a;b";', 'r', 'bad-word'],
    ['a very long repeat', '$r = a<500>;', 'r', 'too-large'],
    ['repeats of repeats of repeats', '$r = (((a b c<50>)<50>)<50>)<50>;', 'r', 'too-large'],
  ])('%s', (...[, text, name, reason]) => {
    expect(makeJsgf(rules(text), [name])).toMatchObject({ ok: false, reason });
  });
});
