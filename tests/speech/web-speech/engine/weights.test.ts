/** What weights make words cost: rare ones among alternatives, and nothing else. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseJsgf } from '../../../../src/speech/grammar/jsgf/parse-jsgf';
import { wordCosts } from '../../../../src/speech/web-speech/engine/weights';

function costsIn(...bodies: readonly string[]): Record<string, number> {
  const grammars = bodies.map((body) => {
    const parsed = parseJsgf(`#JSGF V1.0; grammar test; ${body}`);
    if (!parsed.ok) throw new Error(parsed.detail);
    return parsed.value;
  });
  return Object.fromEntries([...wordCosts(grammars)].map(([word, cost]) => [word, Math.round(cost * 100) / 100]));
}

describe('a word', () => {
  it.each([
    ['that weighs a tenth of the heaviest', 'public <a> = /10/ three | /1/ tree;', { tree: 14.97 }],
    ['that weighs half of it', 'public <a> = /0.5/ yes | /0.25/ yeah;', { yeah: 4.51 }],
    ['that weighs next to nothing can still be said', 'public <a> = /1/ yes | /1e-9/ aye;', { aye: 15 }],
    ['that weighs nothing at all can still be said', 'public <a> = /1/ yes | /0/ aye;', { aye: 15 }],
    ['without a weight weighs 1', 'public <a> = yes | /0.5/ aye;', { aye: 4.51 }],
    ['among alternatives without weights', 'public <a> = yes | aye | yeah;', {}],
    ['that is the heaviest', 'public <a> = /3/ yes | /3/ aye;', {}],
    ['of a phrase with a weight', 'public <a> = /10/ yes | /1/ yes sir;', {}],
    ['of a rule with a weight', 'public <a> = /10/ yes | /1/ <b>; <b> = aye;', {}],
    [
      'in a group, in brackets, repeated',
      'public <a> = go [(/2/ on | /1/ up)] (/2/ now | /1/ then)*;',
      { up: 4.51, then: 4.51 },
    ],
    ['that stands elsewhere without a weight', 'public <a> = (/10/ three | /1/ tree) | big tree;', {}],
    ['that stands elsewhere with another one', 'public <a> = (/10/ x | /1/ y) (/2/ x | /1/ y);', { y: 4.51 }],
  ])('%s', (_, body, expected) => {
    expect(costsIn(body)).toEqual(expected);
  });

  it('is as cheap as in the cheapest of several grammars', () => {
    expect(costsIn('public <a> = /10/ x | /1/ y;', 'public <a> = y;')).toEqual({});
  });

  it('never costs less than nothing nor more than what can still be said', () => {
    const weight = fc.double({ min: 0, max: 1e6, noNaN: true }).map((value) => value.toFixed(3));
    fc.assert(
      fc.property(fc.array(weight, { minLength: 1, maxLength: 6 }), (weights) => {
        const choice = weights.map((value, place) => `/${value}/ w${place}`).join(' | ');
        for (const cost of Object.values(costsIn(`public <a> = ${choice};`))) {
          expect(cost).toBeGreaterThanOrEqual(0);
          expect(cost).toBeLessThanOrEqual(15);
        }
      }),
    );
  });
});
