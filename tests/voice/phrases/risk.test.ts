/** The risk of each command: declared in the grammar, and the greatest where it is not. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { parseAbnf } from '@stowcall/grammar';
import { riskOf } from '@stowcall/web-speech/core';
import { lowRiskOf } from '../../../src/voice/phrases/low-risk';
import { phraseBook } from './book';

const book = phraseBook();

function risk(header: string): string {
  const parsed = parseAbnf('a.gram', `#ABNF 1.0;\nlanguage en-US;\n${header}\npublic $go = go;\n`);
  if (!parsed.ok) throw new Error(parsed.detail);
  return riskOf(parsed.value, 'go');
}

describe('the risk of a rule', () => {
  it.each([
    ['declared low', 'meta "risk.go" is "low";', 'low'],
    ['declared high', 'meta "risk.go" is "high";', 'high'],
    ['not declared', '', 'high'],
    ['declared for another rule', 'meta "risk.going" is "low";', 'high'],
    ['a word that is not known', 'meta "risk.go" is "lo";', 'high'],
    ['in capitals', 'meta "risk.go" is "LOW";', 'high'],
    ['declared twice and not alike', 'meta "risk.go" is "low"; meta "risk.go" is "high";', 'high'],
    ['declared as http-equiv', 'http-equiv "risk.go" is "low";', 'high'],
  ])('that is %s', (_, header, expected) => {
    expect(risk(header)).toBe(expected);
  });
});

describe('our own commands', () => {
  const parsed = parseAbnf('commands.gram', readFileSync('grammars/commands.gram', 'utf8'));
  if (!parsed.ok) throw new Error(parsed.detail);
  const metas = parsed.value.header.metas.filter(({ name }) => name.startsWith('risk.'));

  it('have each one risk, and nothing else has one', () => {
    expect(metas.map(({ name }) => name.slice('risk.'.length)).sort()).toEqual([...COMMAND_NAMES].sort());
    expect(metas.filter(({ content }) => content !== 'low' && content !== 'high')).toEqual([]);
  });

  it('are of low risk only where they ask, pause, or steer a rehearsal', () => {
    const low = COMMAND_NAMES.filter((name) => book.riskOf(name) === 'low');
    expect([...low].sort()).toEqual([
      ...['faster', 'finish', 'next', 'readList', 'sayAgain', 'slower', 'standBy', 'whatRemains'],
    ]);
  });

  it('of low risk are told to the ear, and where there are none nothing is', () => {
    const nouns = ['stows'] as const;
    expect(lowRiskOf({ commands: ['stow', 'count', 'sayAgain'], nouns }, book)?.commands).toEqual(['sayAgain']);
    expect(lowRiskOf({ commands: ['affirm', 'negative', 'count'], nouns }, book)).toBeNull();
  });
});
