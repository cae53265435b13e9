/** Nothing that the kiosk says can be taken for a command that is legal when it ends, however late it is heard. */
import { describe, expect, it } from 'vitest';
import { COMMAND_NAMES } from '../../src/domain/command';
import { COUNT_NOUNS } from '../../src/domain/procedure';
import type { Vocabulary } from '../../src/voice/hearing';
import { commandIn } from '../../src/voice/phrases/command-in-prompt';
import { demoPhrases } from '../e2e/support/demo-loft';
import { allPrompts } from './own-voice/prompts';

const book = demoPhrases();
const EVERYTHING: Vocabulary = { commands: COMMAND_NAMES, nouns: COUNT_NOUNS };
const READ_BACK: Vocabulary = { commands: ['affirm', 'negative', 'sayAgain'], nouns: [] };
const STOWING: Vocabulary = { commands: ['stow', 'count', 'correction'], nouns: ['stows'] };

describe('what can be taken for a command', () => {
  it.each<[string, Vocabulary, string]>([
    ['Bag, serial Bravo. Affirm?', READ_BACK, 'Affirm'],
    ['Say affirm', READ_BACK, 'affirm'],
    ['Affirm. Or not?', READ_BACK, 'Affirm'],
    ['Not sure: negative, affirm? What was it?', READ_BACK, 'affirm'],
    ['Two of six stows', STOWING, 'six stows'],
    ['The line: five stows. Go on here.', STOWING, 'five stows'],
    ['Make 5 stows', STOWING, 'five stows'],
    ['Then say stow.', STOWING, 'stow'],
    ['Measured: 42 inches.', { commands: ['measured'], nouns: [] }, 'inches'],
  ])('%s', (text, vocabulary, found) => {
    expect(commandIn(book, vocabulary, text) ?? '').toContain(found);
  });

  it.each<[string, Vocabulary]>([
    ['Bag, serial Bravo. Is that right?', READ_BACK],
    ['Say affirm for that stage, or go to stage and another number.', READ_BACK],
    ['Two of six stows. Next, right.', STOWING],
    ['Five stows, two turns of the band.', STOWING],
    ['Packing paddle: five stows.', READ_BACK],
    ['', EVERYTHING],
    ['...', EVERYTHING],
  ])('not in: %s', (text, vocabulary) => {
    expect(commandIn(book, vocabulary, text)).toBeNull();
  });
});

describe('every prompt', () => {
  const prompts = allPrompts();

  it('of packs, stories, rehearsals, enrolment and remarks is there', () => {
    expect(prompts.length).toBeGreaterThan(900);
  });

  it('ends in no phrase that is legal then, and has none as a sentence of its own', () => {
    const taken = prompts.flatMap(({ text, vocabulary }) => {
      const found = commandIn(book, vocabulary, text);
      return found === null ? [] : [`"${found}" would be obeyed at the end of: ${text}`];
    });
    expect(taken).toEqual([]);
  });
});
