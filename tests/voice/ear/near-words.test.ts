/** What is known beside the legal commands: every other command, and none of the legal ones. */
import { describe, expect, it } from 'vitest';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { COUNT_NOUNS } from '../../../src/domain/procedure';
import { othersOf } from '../../../src/voice/near-words';

describe('the other commands', () => {
  it('and the legal ones are all commands but lengths, each once', () => {
    const legal = { commands: ['affirm', 'negative'], nouns: [] } as const;
    const others = othersOf(legal);
    expect([...others.commands, ...legal.commands, 'measured'].sort()).toEqual([...COMMAND_NAMES].sort());
    expect(others.nouns).toEqual(COUNT_NOUNS);
  });

  it('count the nouns that are not legal', () => {
    const others = othersOf({ commands: ['count'], nouns: ['stows'] });
    expect(others.commands).toContain('count');
    expect(others.nouns).toEqual(COUNT_NOUNS.filter((noun) => noun !== 'stows'));
  });

  it('nouns mean nothing where counting is not legal', () => {
    expect(othersOf({ commands: ['affirm'], nouns: ['stows'] }).nouns).toEqual(COUNT_NOUNS);
  });
});
